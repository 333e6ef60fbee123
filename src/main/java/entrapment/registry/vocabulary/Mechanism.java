package entrapment.registry.vocabulary;

/** The field {@code mechanism}: what held the device; where several did, the one that held it first. */
public enum Mechanism implements Code {
    WEDGED_IN_CALCIUM(
            "Wedged in calcium",
            "The body of the device sits inside calcified plaque that grips it, and it moves neither way."),
    TIP_FIXED_IN_PLAQUE(
            "Tip fixed in plaque",
            "Only the tip is held, in plaque or an occlusion, while the shaft behind it still moves or turns."),
    PASSED_BEYOND_LESION(
            "Passed beyond the lesion",
            "The working part slipped through the lesion and its rear will not come back through it."),
    CAUGHT_ON_STENT(
            "Caught on a stent", "The device hooks on struts of a stent that was already expanded when it came by."),
    LOOPED_OR_KINKED("Looped or kinked", "A loop, knot or kink of the device or its wire stops the withdrawal."),
    JAILED_BEHIND_STENT(
            "Jailed behind a stent", "The device lies between the vessel wall and a stent expanded over it."),
    FAILED_DEFLATION("Failed deflation", "A balloon that cannot be emptied stays too large to withdraw."),
    OTHER("Other mechanism", "A known mechanism that is none of these, such as spasm on the shaft."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    Mechanism(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
