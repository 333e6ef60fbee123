package entrapment.registry.vocabulary;

/** The field {@code procedureEnd}: what became of the treatment that had been planned. */
public enum ProcedureEnd implements Code {
    COMPLETED_AS_PLANNED(
            "Completed as planned",
            "The target lesion was treated in the same procedure by the means planned before the entrapment."),
    COMPLETED_OTHERWISE(
            "Completed otherwise",
            "The target lesion was treated in the same procedure by other means than planned, surgery included."),
    ABANDONED("Abandoned", "The procedure ended with the target lesion not treated."),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.");

    private final Coding coding;

    ProcedureEnd(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
