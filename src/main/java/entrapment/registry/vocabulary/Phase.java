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

    private final String code;
    private final String label;
    private final String definition;
    private final String source;

    Phase(String code, String label, String definition, String source) {
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
