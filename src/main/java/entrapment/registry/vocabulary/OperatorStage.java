package entrapment.registry.vocabulary;

/** The field {@code operatorStage}: training stage of the person whose hands led the device. */
public enum OperatorStage implements Code {
    IN_TRAINING("In training", "Not yet entitled to do coronary interventions alone, whether supervised or not."),
    EARLY_INDEPENDENT("Early independent", "In the first five years of independent practice."),
    ESTABLISHED("Established", "More than five years of independent practice."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    OperatorStage(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
