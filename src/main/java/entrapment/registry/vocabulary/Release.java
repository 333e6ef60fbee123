package entrapment.registry.vocabulary;

/** The field {@code release}: how much of the device left the body in the end, by any way, surgery included. */
public enum Release implements Code {
    INTACT(
            "intact",
            "Intact",
            "The whole device came out, in one piece and without visible damage other than a shaft cut on purpose.",
            Sources.CONVENTION),
    DAMAGED(
            "damaged",
            "Complete but damaged",
            "The whole device came out, but broken, unravelled or misshapen.",
            Sources.CONVENTION),
    PARTIAL("partial", "Partial", "A part of the device came out and a part stayed in the body.", Sources.CONVENTION),
    NONE("none", "None", "Nothing of the held device came out, apart from a shaft cut on purpose.", Sources.CONVENTION);

    private final Coding coding;

    Release(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
