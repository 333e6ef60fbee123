package entrapment.registry.vocabulary;

/** The field {@code urgency}: how soon the procedure had to begin. */
public enum Urgency implements Code {
    ELECTIVE("elective", "Elective", "Planned, with an admission that served this procedure.", Sources.COMMON_PRACTICE),
    URGENT(
            "urgent",
            "Urgent",
            "Not planned before the admission, and needed before discharge, but not at once.",
            Sources.COMMON_PRACTICE),
    EMERGENCY(
            "emergency",
            "Emergency",
            "Begun as soon as possible after the decision, at any hour, because waiting was judged unsafe.",
            Sources.COMMON_PRACTICE),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Urgency(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
