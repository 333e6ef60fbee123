package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** How an action stands. */
public enum ActionStatus implements Code {
    OPEN("open", "Open", "Not done yet."),
    DONE("done", "Done", "Carried out; its effect may still be looked at."),
    DROPPED("dropped", "Dropped", "Not to be carried out.");

    private final Coding coding;

    ActionStatus(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
