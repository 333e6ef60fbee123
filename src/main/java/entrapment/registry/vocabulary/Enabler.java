package entrapment.registry.vocabulary;

/** The field {@code enablers}: what an attempt was prepared or supported by; frees nothing by itself. */
public enum Enabler implements Code {
    SHAFT_CUT("Shaft cut", "The shaft of the device was cut outside the body for this or an earlier attempt."),
    SHEATH_REMOVED("Sheath removed", "The plastic cover around the drive shaft or shaft was drawn back or taken off."),
    GUIDE_UPSIZED("Guide upsized", "The guide catheter was exchanged for one with a larger French size."),
    SECOND_ACCESS("Second access", "A further artery was punctured for this or an earlier attempt."),
    MECHANICAL_SUPPORT(
            "Mechanical support", "A balloon pump, percutaneous pump or extracorporeal circulation was running.");

    private final Coding coding;

    Enabler(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.COMMON_PRACTICE);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
