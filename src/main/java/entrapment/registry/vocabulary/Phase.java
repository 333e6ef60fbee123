package entrapment.registry.vocabulary;

/** The field {@code phase}: the part of the work during which the device got stuck. */
public enum Phase implements Code {
    CROSSING(
            "crossing",
            "Crossing",
            "On the way to or across the lesion, before the device began its work.",
            Sources.CONVENTION),
    TREATING(
            "treating",
            "Treating",
            "While ablating, dilating, deploying or imaging, a final pass left out.",
            Sources.CONVENTION),
    FINAL_PASS(
            "final-pass",
            "Final pass",
            "During a further pass of a burr or crown to smooth a lesion it had already crossed.",
            Sources.CONVENTION),
    WITHDRAWING(
            "withdrawing", "Withdrawing", "On the way back, after the device had done its work.", Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Phase(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
