package entrapment.registry.vocabulary;

/** The field {@code stentLayers}: stent layers in the target lesion before the device went in. */
public enum StentLayers implements Code {
    NONE("0", "No stent", "No stent in the lesion before the device was introduced.", Sources.CONVENTION),
    ONE(
            "1",
            "One layer",
            "One stent layer at the thickest place of the lesion, whether old or placed in this procedure.",
            Sources.CONVENTION),
    TWO_OR_MORE(
            "2-or-more",
            "Two or more layers",
            "Two or more stent layers over each other somewhere in the lesion, overlaps included.",
            Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    StentLayers(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
