package entrapment.registry.vocabulary;

/** The field {@code sex}: the patient's sex. */
public enum Sex implements Code {
    FEMALE("Female", "Female in the centre's record."),
    MALE("Male", "Male in the centre's record."),
    OTHER("Other", "An entry in the centre's record other than female or male."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    Sex(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
