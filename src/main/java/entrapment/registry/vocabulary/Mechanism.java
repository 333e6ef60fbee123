package entrapment.registry.vocabulary;

/** The field {@code mechanism}: what held the device; where several did, the one that held it first. */
public enum Mechanism implements Code {
    WEDGED_IN_CALCIUM(
            "wedged-in-calcium",
            "Wedged in calcium",
            "The body of the device sits inside calcified plaque that grips it, and it moves neither way.",
            Sources.CONVENTION),
    TIP_FIXED_IN_PLAQUE(
            "tip-fixed-in-plaque",
            "Tip fixed in plaque",
            "Only the tip is held, in plaque or an occlusion, while the shaft behind it still moves or turns.",
            Sources.CONVENTION),
    PASSED_BEYOND_LESION(
            "passed-beyond-lesion",
            "Passed beyond the lesion",
            "The working part slipped through the lesion and its rear will not come back through it.",
            Sources.CONVENTION),
    CAUGHT_ON_STENT(
            "caught-on-stent",
            "Caught on a stent",
            "The device hooks on struts of a stent that was already expanded when it came by.",
            Sources.CONVENTION),
    LOOPED_OR_KINKED(
            "looped-or-kinked",
            "Looped or kinked",
            "A loop, knot or kink of the device or its wire stops the withdrawal.",
            Sources.CONVENTION),
    JAILED_BEHIND_STENT(
            "jailed-behind-stent",
            "Jailed behind a stent",
            "The device lies between the vessel wall and a stent expanded over it.",
            Sources.CONVENTION),
    FAILED_DEFLATION(
            "failed-deflation",
            "Failed deflation",
            "A balloon that cannot be emptied stays too large to withdraw.",
            Sources.CONVENTION),
    OTHER(
            "other",
            "Other mechanism",
            "A known mechanism that is none of these, such as spasm on the shaft.",
            Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Mechanism(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
