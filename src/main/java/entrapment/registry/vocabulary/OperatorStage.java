package entrapment.registry.vocabulary;

/** The field {@code operatorStage}: training stage of the person whose hands led the device. */
public enum OperatorStage implements Code {
    IN_TRAINING(
            "in-training",
            "In training",
            "Not yet entitled to do coronary interventions alone, whether supervised or not.",
            Sources.CONVENTION),
    EARLY_INDEPENDENT(
            "early-independent",
            "Early independent",
            "In the first five years of independent practice.",
            Sources.CONVENTION),
    ESTABLISHED("established", "Established", "More than five years of independent practice.", Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    OperatorStage(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
