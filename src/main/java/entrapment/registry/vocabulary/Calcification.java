package entrapment.registry.vocabulary;

/** The field {@code calcification}: calcium of the target lesion as the angiogram shows it, which misses some. */
public enum Calcification implements Code {
    NONE("None", "No opacity at the lesion, in motion or at rest.", Sources.CALCIFICATION),
    MILD("Mild", "Faint opacity that shows at times during the cardiac cycle.", Sources.CALCIFICATION),
    MODERATE(
            "Moderate",
            "Dense opacity that shows only while the vessel moves, before contrast.",
            Sources.CALCIFICATION),
    SEVERE(
            "Severe",
            "Dense opacity that shows without motion before contrast, as a rule on both sides of the lumen.",
            Sources.CALCIFICATION),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Calcification(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
