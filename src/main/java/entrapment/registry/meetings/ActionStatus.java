package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** How an action stands. */
public enum ActionStatus implements Code {
    OPEN("Open", "Not done yet."),
    DONE("Done", "Carried out; its effect may still be looked at."),
    DROPPED("Dropped", "Not to be carried out.");

    private final Coding coding;

    ActionStatus(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
