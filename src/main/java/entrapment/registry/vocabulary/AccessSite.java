package entrapment.registry.vocabulary;

/** The field {@code access}: the artery by which the guide of the device was introduced. */
public enum AccessSite implements Code {
    RADIAL("Radial", "Radial artery of either arm, at the wrist or on the back of the hand.", Sources.COMMON_PRACTICE),
    FEMORAL("Femoral", "Common femoral artery of either leg.", Sources.COMMON_PRACTICE),
    OTHER(
            "Other access",
            "Any other artery, such as ulnar, brachial, axillary or by surgical exposure.",
            Sources.COMMON_PRACTICE),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    AccessSite(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
