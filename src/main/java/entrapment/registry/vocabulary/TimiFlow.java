package entrapment.registry.vocabulary;

/**
 * The fields {@code timiFlow}, with the device stuck and before the first attempt, and {@code finalTimiFlow}, at the
 * end.
 */
public enum TimiFlow implements Code {
    GRADE_0("0", "TIMI 0, no flow", "No antegrade contrast beyond the block.", Sources.TIMI),
    GRADE_1(
            "1",
            "TIMI 1, penetration",
            "Contrast passes the block but never fills the whole bed beyond it.",
            Sources.TIMI),
    GRADE_2(
            "2",
            "TIMI 2, slow flow",
            "The whole bed fills, but fills or clears visibly more slowly than an uninvolved one.",
            Sources.TIMI),
    GRADE_3("3", "TIMI 3, normal flow", "The bed fills and clears as fast as an uninvolved one.", Sources.TIMI),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    TimiFlow(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
