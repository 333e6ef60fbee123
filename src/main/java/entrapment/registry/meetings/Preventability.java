package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** One reviewer's judgement of whether the entrapment could have been prevented. */
public enum Preventability implements Code {
    DEFINITELY_NOT("definitely-not", "Definitely not preventable", "Nothing known then would have prevented it."),
    PROBABLY_NOT("probably-not", "Probably not preventable", "Less likely than not."),
    PROBABLY("probably", "Probably preventable", "More likely than not."),
    DEFINITELY("definitely", "Definitely preventable", "Would not have happened with what was known then.");

    private final String code;
    private final String label;
    private final String definition;

    Preventability(String code, String label, String definition) {
        this.code = code;
        this.label = label;
        this.definition = definition;
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
        return "registry convention";
    }
}
