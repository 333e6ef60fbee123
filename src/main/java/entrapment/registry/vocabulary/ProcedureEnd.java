package entrapment.registry.vocabulary;

/** The field {@code procedureEnd}: what became of the treatment that had been planned. */
public enum ProcedureEnd implements Code {
    COMPLETED_AS_PLANNED(
            "completed-as-planned",
            "Completed as planned",
            "The target lesion was treated in the same procedure by the means planned before the entrapment.",
            Sources.CONVENTION),
    COMPLETED_OTHERWISE(
            "completed-otherwise",
            "Completed otherwise",
            "The target lesion was treated in the same procedure by other means than planned, surgery included.",
            Sources.CONVENTION),
    ABANDONED("abandoned", "Abandoned", "The procedure ended with the target lesion not treated.", Sources.CONVENTION),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    ProcedureEnd(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
