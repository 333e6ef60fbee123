package entrapment.registry.vocabulary;

/** The field {@code dissection}: the worst coronary dissection after the entrapment, by NHLBI type. */
public enum Dissection implements Code {
    NONE("none", "None", "No dissection seen.", Sources.NHLBI),
    A("A", "Type A", "Radiolucent area in the lumen with little or no contrast persisting.", Sources.NHLBI),
    B("B", "Type B", "Double lumen or parallel tracts with little or no contrast persisting.", Sources.NHLBI),
    C("C", "Type C", "Contrast outside the lumen that persists after the lumen has cleared.", Sources.NHLBI),
    D("D", "Type D", "Spiral filling defect, often with much contrast staining.", Sources.NHLBI),
    E("E", "Type E", "New persistent filling defect, which may be thrombus.", Sources.NHLBI),
    F("F", "Type F", "Any other pattern that goes with impaired flow or occlusion.", Sources.NHLBI),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Dissection(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
