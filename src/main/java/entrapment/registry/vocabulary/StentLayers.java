package entrapment.registry.vocabulary;

/** The field {@code stentLayers}: stent layers in the target lesion before the device went in. */
public enum StentLayers implements Code {
    NONE("0", "No stent", "No stent in the lesion before the device was introduced."),
    ONE(
            "1",
            "One layer",
            "One stent layer at the thickest place of the lesion, whether old or placed in this procedure."),
    TWO_OR_MORE(
            "2-or-more",
            "Two or more layers",
            "Two or more stent layers over each other somewhere in the lesion, overlaps included."),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    StentLayers(String code, String label, String definition) {
        coding = new Coding(code, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
