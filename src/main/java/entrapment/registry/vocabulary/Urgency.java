package entrapment.registry.vocabulary;

/** The field {@code urgency}: how soon the procedure had to begin. */
public enum Urgency implements Code {
    ELECTIVE("Elective", "Planned, with an admission that served this procedure.", Sources.COMMON_PRACTICE),
    URGENT(
            "Urgent",
            "Not planned before the admission, and needed before discharge, but not at once.",
            Sources.COMMON_PRACTICE),
    EMERGENCY(
            "Emergency",
            "Begun as soon as possible after the decision, at any hour, because waiting was judged unsafe.",
            Sources.COMMON_PRACTICE),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Urgency(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
