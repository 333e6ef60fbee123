package entrapment.registry.vocabulary;

/** The field {@code fractured}: whether the device or its wire broke apart before or during retrieval. */
public enum Fractured implements Code {
    YES(
            "yes",
            "Broken apart",
            "The device or its wire came apart in the body or unravelled; a shaft cut on purpose outside "
                    + "does not count.",
            Sources.CONVENTION),
    NO(
            "no",
            "In one piece",
            "Device and wire stayed in one piece, apart from a shaft cut on purpose outside the body.",
            Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Fractured(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
