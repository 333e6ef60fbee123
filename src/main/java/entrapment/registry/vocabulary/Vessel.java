package entrapment.registry.vocabulary;

/** The field {@code vessel}: the artery that holds the target lesion. */
public enum Vessel implements Code {
    LEFT_MAIN(
            "Left main",
            "Target lesion between the left ostium and the division into anterior descending and circumflex artery.",
            Sources.SYNTAX),
    LAD(
            "Left anterior descending",
            "Target lesion in the anterior descending artery, its diagonal or its septal branches.",
            Sources.SYNTAX),
    CIRCUMFLEX(
            "Circumflex",
            "Target lesion in the circumflex artery or its branches, an intermediate branch of the left main included.",
            Sources.SYNTAX),
    RCA("Right coronary artery", "Target lesion in the right coronary artery or its branches.", Sources.SYNTAX),
    GRAFT(
            "Bypass graft",
            "Target lesion in a venous or arterial graft or at its anastomosis; beyond it, code the native artery.",
            Sources.CONVENTION),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Vessel(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
