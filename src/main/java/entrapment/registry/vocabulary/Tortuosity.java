package entrapment.registry.vocabulary;

/**
 * The field {@code tortuosity}: bends of the vessel from its origin to the target lesion, the lesion itself left out.
 */
public enum Tortuosity implements Code {
    MILD(
            "mild",
            "None or mild",
            "No bend of 45 degrees or more on the way to the lesion, or just one, below 90 degrees.",
            Sources.CONVENTION),
    MODERATE(
            "moderate",
            "Moderate",
            "Two bends of 45 degrees or more on the way to the lesion, each below 90 degrees.",
            Sources.CONVENTION),
    SEVERE(
            "severe",
            "Severe",
            "One or more bends of 90 degrees or more, or three or more of 45 degrees or more, on the way to "
                    + "the lesion.",
            Sources.SYNTAX),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final String code;
    private final String label;
    private final String definition;
    private final String source;

    Tortuosity(String code, String label, String definition, String source) {
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
