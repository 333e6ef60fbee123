package entrapment.registry.vocabulary;

/** The field {@code fractured}: whether the device or its wire parted before or during retrieval. */
public enum Fractured implements Code {
    YES(
            "yes",
            "Parted",
            "The device or its wire came apart in the body or unravelled; a shaft cut on purpose outside "
                    + "does not count.",
            Sources.CONVENTION),
    NO(
            "no",
            "In one piece",
            "Device and wire stayed in one piece, apart from a shaft cut on purpose outside the body.",
            Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final String code;
    private final String label;
    private final String definition;
    private final String source;

    Fractured(String code, String label, String definition, String source) {
        this.code = code;
        this.label = label;
        this.definition = definition;
        this.source = source;
    }

    @Override
    public String code() {
        return code;
    }

    @Override
    public String label() {
        return label;
    }

    @Override
    public String definition() {
        return definition;
    }

    @Override
    public String source() {
        return source;
    }
}
