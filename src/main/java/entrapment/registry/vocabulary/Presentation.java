package entrapment.registry.vocabulary;

/** The field {@code presentation}: why the patient came to the procedure. */
public enum Presentation implements Code {
    CHRONIC_CORONARY(
            "Chronic coronary disease",
            "Stable or silent coronary disease without acute coronary syndrome behind this admission.",
            Sources.COMMON_PRACTICE),
    UNSTABLE_ANGINA(
            "Unstable angina",
            "New, worsening or resting angina behind this admission, without a rise of troponin that meets infarction.",
            Sources.COMMON_PRACTICE),
    NSTEMI(
            "Infarction without ST elevation",
            "Acute myocardial infarction without persistent ST elevation behind this admission.",
            Sources.UDMI),
    STEMI(
            "Infarction with ST elevation",
            "Acute myocardial infarction with persistent ST elevation or its equivalent behind this admission.",
            Sources.UDMI),
    OTHER(
            "Other presentation",
            "A known reason that is none of these, such as heart failure or work-up before valve treatment.",
            Sources.CONVENTION),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Presentation(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
