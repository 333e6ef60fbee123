package entrapment.registry.vocabulary;

/**
 * The field {@code guideFrench}: outer size of the guide catheter through which the device went in; 1 French is 1/3
 * mm.
 */
public enum GuideFrench implements Code {
    F5(
            "5",
            "5 French",
            "Guide catheter of 5 French, 1.67 mm outside; a half size counts as the whole size below it.",
            Sources.COMMON_PRACTICE),
    F6(
            "6",
            "6 French",
            "Guide catheter of 6 French, 2.00 mm outside; a half size counts as the whole size below it.",
            Sources.COMMON_PRACTICE),
    F7(
            "7",
            "7 French",
            "Guide catheter of 7 French, 2.33 mm outside; a half size counts as the whole size below it.",
            Sources.COMMON_PRACTICE),
    F8(
            "8",
            "8 French",
            "Guide catheter of 8 French, 2.67 mm outside; a half size counts as the whole size below it.",
            Sources.COMMON_PRACTICE),
    UNKNOWN(
            "unknown",
            "Unknown",
            "Not recorded, no guide catheter, or a size outside 5 to 8 French.",
            Sources.CONVENTION);

    private final Coding coding;

    GuideFrench(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
