package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** What a meeting is for; a code instead of a title, since a title is free text. */
public enum MeetingKind implements Code {
    MORBIDITY_MORTALITY(
            "morbidity-mortality", "Morbidity and mortality", "Looks at what happened to patients, and why."),
    QUALITY("quality", "Quality", "Looks at rates, retrieval and completeness over time."),
    TEACHING("teaching", "Teaching", "Looks at cases to learn from them.");

    private final String code;
    private final String label;
    private final String definition;

    MeetingKind(String code, String label, String definition) {
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
