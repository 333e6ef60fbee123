package entrapment.registry.vocabulary;

/** The field {@code angulation}: how far the vessel turns within the target lesion, at end-diastole. */
public enum Angulation implements Code {
    UNDER_45(
            "under-45",
            "Under 45 degrees",
            "The centre line turns by less than 45 degrees within the lesion.",
            Sources.AHA_ACC),
    FROM_45_TO_90(
            "45-to-90",
            "45 to 90 degrees",
            "The centre line turns by 45 to 90 degrees within the lesion, both included.",
            Sources.AHA_ACC),
    OVER_90(
            "over-90",
            "Over 90 degrees",
            "The centre line turns by more than 90 degrees within the lesion.",
            Sources.AHA_ACC),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Angulation(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
