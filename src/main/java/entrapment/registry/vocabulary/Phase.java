package entrapment.registry.vocabulary;

/** The field {@code phase}: the part of the work during which the device got stuck. */
public enum Phase implements Code {
    CROSSING("Crossing", "On the way to or across the lesion, before the device began its work."),
    TREATING("Treating", "While ablating, dilating, deploying or imaging, a final pass left out."),
    FINAL_PASS("Final pass", "During a further pass of a burr or crown to smooth a lesion it had already crossed."),
    WITHDRAWING("Withdrawing", "On the way back, after the device had done its work."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    Phase(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
