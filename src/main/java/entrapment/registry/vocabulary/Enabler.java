package entrapment.registry.vocabulary;

/** The field {@code enablers}: what an attempt was prepared or supported by; frees nothing by itself. */
public enum Enabler implements Code {
    SHAFT_CUT(
            "shaft-cut",
            "Shaft cut",
            "The shaft of the device was cut outside the body for this or an earlier attempt.",
            Sources.COMMON_PRACTICE),
    SHEATH_REMOVED(
            "sheath-removed",
            "Sheath removed",
            "The plastic cover around the drive shaft or shaft was drawn back or taken off.",
            Sources.COMMON_PRACTICE),
    GUIDE_UPSIZED(
            "guide-upsized",
            "Guide upsized",
            "The guide catheter was exchanged for one with a larger French size.",
            Sources.COMMON_PRACTICE),
    SECOND_ACCESS(
            "second-access",
            "Second access",
            "A further artery was punctured for this or an earlier attempt.",
            Sources.COMMON_PRACTICE),
    MECHANICAL_SUPPORT(
            "mechanical-support",
            "Mechanical support",
            "A balloon pump, percutaneous pump or extracorporeal circulation was running.",
            Sources.COMMON_PRACTICE);

    private final Coding coding;

    Enabler(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
