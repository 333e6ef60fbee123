package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** What a meeting is for; a code instead of a title, since a title is free text. */
public enum MeetingKind implements Code {
    MORBIDITY_MORTALITY(
            "morbidity-mortality", "Morbidity and mortality", "Looks at what happened to patients, and why."),
    QUALITY("quality", "Quality", "Looks at rates, retrieval and completeness over time."),
    TEACHING("teaching", "Teaching", "Looks at cases to learn from them.");

    private final Coding coding;

    MeetingKind(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
