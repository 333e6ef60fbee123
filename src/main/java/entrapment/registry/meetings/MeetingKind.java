package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** What a meeting is for; a code instead of a title, since a title is free text. */
public enum MeetingKind implements Code {
    MORBIDITY_MORTALITY("Morbidity and mortality", "Looks at what happened to patients, and why."),
    QUALITY("Quality", "Looks at rates, retrieval and completeness over time."),
    TEACHING("Teaching", "Looks at cases to learn from them.");

    private final Coding coding;

    MeetingKind(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
