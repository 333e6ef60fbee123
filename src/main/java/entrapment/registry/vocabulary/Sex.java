package entrapment.registry.vocabulary;

/** The field {@code sex}: the patient's sex. */
public enum Sex implements Code {
    FEMALE("female", "Female", "Female in the centre's record.", Sources.CONVENTION),
    MALE("male", "Male", "Male in the centre's record.", Sources.CONVENTION),
    OTHER("other", "Other", "An entry in the centre's record other than female or male.", Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final String code;
    private final String label;
    private final String definition;
    private final String source;

    Sex(String code, String label, String definition, String source) {
        this.code = code;
        this.label = label;
        this.definition = definition;
        this.source = source;
    }

    @Override
    public String code() {
        return code;
    }

    @Override
    public String label() {
        return label;
    }

    @Override
    public String definition() {
        return definition;
    }

    @Override
    public String source() {
        return source;
    }
}
