package entrapment.registry.vocabulary;

/** The field {@code access}: the artery by which the guide of the device was introduced. */
public enum AccessSite implements Code {
    RADIAL(
            "radial",
            "Radial",
            "Radial artery of either arm, at the wrist or on the back of the hand.",
            Sources.COMMON_PRACTICE),
    FEMORAL("femoral", "Femoral", "Common femoral artery of either leg.", Sources.COMMON_PRACTICE),
    OTHER(
            "other",
            "Other access",
            "Any other artery, such as ulnar, brachial, axillary or by surgical exposure.",
            Sources.COMMON_PRACTICE),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    AccessSite(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
