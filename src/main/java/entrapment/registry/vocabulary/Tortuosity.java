package entrapment.registry.vocabulary;

/**
 * The field {@code tortuosity}: bends of the vessel from its origin to the target lesion, the lesion itself left out.
 */
public enum Tortuosity implements Code {
    MILD(
            "None or mild",
            "No bend of 45 degrees or more on the way to the lesion, or just one, below 90 degrees.",
            Sources.CONVENTION),
    MODERATE(
            "Moderate",
            "Two bends of 45 degrees or more on the way to the lesion, each below 90 degrees.",
            Sources.CONVENTION),
    SEVERE(
            "Severe",
            "One or more bends of 90 degrees or more, or three or more of 45 degrees or more, on the way to "
                    + "the lesion.",
            Sources.SYNTAX),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Tortuosity(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
