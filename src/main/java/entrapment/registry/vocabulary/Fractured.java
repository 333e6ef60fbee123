package entrapment.registry.vocabulary;

/** The field {@code fractured}: whether the device or its wire broke apart before or during retrieval. */
public enum Fractured implements Code {
    YES(
            "Broken apart",
            "The device or its wire came apart in the body or unravelled; a shaft cut on purpose outside "
                    + "does not count."),
    NO("In one piece", "Device and wire stayed in one piece, apart from a shaft cut on purpose outside the body."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    Fractured(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
