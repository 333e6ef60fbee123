package entrapment.registry.vocabulary;

/** The field {@code totalOcclusion}: whether the target lesion is a chronic total occlusion. */
public enum TotalOcclusion implements Code {
    YES(
            "Chronic total occlusion",
            "No flow (TIMI 0) within the occlusion, known or presumed to have lasted at least three months.",
            Sources.SYNTAX),
    NO(
            "No chronic total occlusion",
            "Some antegrade flow through the lesion, or an occlusion of less than three months.",
            Sources.SYNTAX),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    TotalOcclusion(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
