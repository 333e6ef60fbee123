package entrapment.registry.vocabulary;

/** The field {@code haemodynamics}: the worst circulation between the entrapment and the first attempt. */
public enum Haemodynamics implements Code {
    STABLE(
            "stable",
            "Stable",
            "Until the first attempt, systolic pressure 90 mmHg or more and no new need of vasoactive drug, "
                    + "cardioversion, pacing or support.",
            Sources.CONVENTION),
    UNSTABLE(
            "unstable",
            "Unstable",
            "Before the first attempt, systolic pressure below 90 mmHg or a new need of vasoactive drug, "
                    + "cardioversion, pacing or support; no arrest.",
            Sources.CONVENTION),
    ARREST(
            "arrest",
            "Arrest",
            "Before the first attempt, loss of circulation with chest compressions or defibrillation.",
            Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Haemodynamics(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
