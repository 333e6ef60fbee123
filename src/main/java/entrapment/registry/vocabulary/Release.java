package entrapment.registry.vocabulary;

/** The field {@code release}: how much of the device left the body in the end, by any way, surgery included. */
public enum Release implements Code {
    INTACT(
            "Intact",
            "The whole device came out, in one piece and without visible damage other than a shaft cut on purpose."),
    DAMAGED("Complete but damaged", "The whole device came out, but broken, unravelled or misshapen."),
    PARTIAL("Partial", "A part of the device came out and a part stayed in the body."),
    NONE("None", "Nothing of the held device came out, apart from a shaft cut on purpose.");

    private final Coding coding;

    Release(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
