package entrapment.registry.vocabulary;

/** The field {@code sex}: the patient's sex. */
public enum Sex implements Code {
    FEMALE("female", "Female", "Female in the centre's record.", Sources.CONVENTION),
    MALE("male", "Male", "Male in the centre's record.", Sources.CONVENTION),
    OTHER("other", "Other", "An entry in the centre's record other than female or male.", Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Sex(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
