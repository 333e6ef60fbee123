package entrapment.registry.vocabulary;

/** The field {@code haemodynamics}: the worst circulation between the entrapment and the first attempt. */
public enum Haemodynamics implements Code {
    STABLE(
            "Stable",
            "Until the first attempt, systolic pressure 90 mmHg or more and no new need of vasoactive drug, "
                    + "cardioversion, pacing or support."),
    UNSTABLE(
            "Unstable",
            "Before the first attempt, systolic pressure below 90 mmHg or a new need of vasoactive drug, "
                    + "cardioversion, pacing or support; no arrest."),
    ARREST("Arrest", "Before the first attempt, loss of circulation with chest compressions or defibrillation."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    Haemodynamics(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
