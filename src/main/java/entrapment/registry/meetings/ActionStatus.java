package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** How an action stands. */
public enum ActionStatus implements Code {
    OPEN("open", "Open", "Not done yet."),
    DONE("done", "Done", "Carried out; its effect may still be looked at."),
    DROPPED("dropped", "Dropped", "Not to be carried out.");

    private final String code;
    private final String label;
    private final String definition;

    ActionStatus(String code, String label, String definition) {
        this.code = code;
        this.label = label;
        this.definition = definition;
    }

    @Override
    public String code() {
        return code;
    }

    @Override
    public String label() {
        return label;
    }

    @Override
    public String definition() {
        return definition;
    }

    @Override
    public String source() {
        return "registry convention";
    }
}
