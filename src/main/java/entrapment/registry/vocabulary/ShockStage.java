package entrapment.registry.vocabulary;

/** The field {@code shockStage}: the worst SCAI stage between the entrapment and the first attempt. */
public enum ShockStage implements Code {
    A(
            "A",
            "Stage A, at risk",
            "No sign of shock before the first attempt, in a patient at risk of it.",
            Sources.SCAI_SHOCK),
    B(
            "B",
            "Stage B, beginning",
            "At worst before the first attempt, low blood pressure or fast heart rate without hypoperfusion.",
            Sources.SCAI_SHOCK),
    C(
            "C",
            "Stage C, classic",
            "At worst before the first attempt, hypoperfusion that needs a drug or a device beyond fluids.",
            Sources.SCAI_SHOCK),
    D(
            "D",
            "Stage D, deteriorating",
            "At worst before the first attempt, shock that worsens or fails to improve although treatment "
                    + "was stepped up.",
            Sources.SCAI_SHOCK),
    E(
            "E",
            "Stage E, extremis",
            "Before the first attempt, refractory shock with actual or impending circulatory collapse.",
            Sources.SCAI_SHOCK),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    ShockStage(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
