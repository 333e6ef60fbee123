package entrapment.registry.vocabulary;

/** The field {@code miDefinition}: the definition by which a periprocedural infarction was diagnosed. */
public enum MiDefinition implements Code {
    UDMI_4A(
            "Fourth universal definition, type 4a",
            "Troponin over 5 times the 99th percentile within 48 hours, with new ischaemia on ECG, imaging "
                    + "or angiogram.",
            Sources.UDMI),
    SCAI(
            "SCAI",
            "CK-MB at least 10 or troponin at least 70 times the upper limit within 48 hours, or half that "
                    + "with new Q waves or left bundle branch block.",
            Sources.SCAI_MI),
    ARC_2(
            "ARC-2",
            "Troponin at least 35 times the upper limit within 48 hours, with an ancillary sign of ischaemia.",
            Sources.ARC_2),
    OTHER(
            "Other definition",
            "A known definition that is none of these, earlier editions included.",
            Sources.CONVENTION),
    UNKNOWN("Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    MiDefinition(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
