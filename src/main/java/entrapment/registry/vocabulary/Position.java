package entrapment.registry.vocabulary;

/**
 * The field {@code position}: where along its vessel the target lesion lies; a lesion over several is coded by its
 * start.
 */
public enum Position implements Code {
    OSTIAL("Ostial", "Lesion that begins within 3 mm of the origin of the main vessel or graft.", Sources.SYNTAX),
    PROXIMAL(
            "Proximal",
            "Segment 1, 6 or 11 beyond the ostial 3 mm; in left main or graft the first third beyond them.",
            Sources.CONVENTION),
    MID(
            "Mid",
            "Segment 2 or 7, circumflex between first and last marginal branch, or middle third of left main or graft.",
            Sources.CONVENTION),
    DISTAL("Distal", "Segment 3, 8 or 13, or the last third of the left main or of a graft.", Sources.CONVENTION),
    BRANCH(
            "Branch",
            "Any side branch or posterior branch of the vessel: segment 4, 9, 10, 12, 14, 15 or 16, or a septal.",
            Sources.CONVENTION),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Position(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
