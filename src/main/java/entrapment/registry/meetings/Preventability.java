package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** One reviewer's judgement of whether the entrapment could have been prevented. */
public enum Preventability implements Code {
    DEFINITELY_NOT("Definitely not preventable", "Nothing known then would have prevented it."),
    PROBABLY_NOT("Probably not preventable", "Less likely than not."),
    PROBABLY("Probably preventable", "More likely than not."),
    DEFINITELY("Definitely preventable", "Would not have happened with what was known then.");

    private final Coding coding;

    Preventability(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
