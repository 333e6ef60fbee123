package entrapment.registry.vocabulary;

/**
 * The field {@code complications}: harm between the entrapment and discharge that it or its retrieval may have caused.
 */
public enum Complication implements Code {
    PERIPROCEDURAL_MI(
            "Periprocedural infarction",
            "Myocardial infarction caused by the procedure, by the definition given in miDefinition.",
            Sources.CONVENTION),
    TAMPONADE(
            "Tamponade",
            "Pericardial effusion that lowered the blood pressure or had to be drained.",
            Sources.COMMON_PRACTICE),
    DISTAL_WIRE_PERFORATION(
            "Distal wire perforation",
            "Leak from a small distal vessel made by a wire tip; it has no Ellis type and is called V by some authors.",
            Sources.CONVENTION),
    STENT_AVULSED(
            "Stent avulsed",
            "A stent already expanded was torn loose, dragged along or pulled out.",
            Sources.CONVENTION),
    ABRUPT_CLOSURE(
            "Abrupt closure",
            "A vessel with TIMI 2 or 3 before the entrapment came to TIMI 0 or 1 for any time after it.",
            Sources.COMMON_PRACTICE),
    EMERGENCY_SURGERY(
            "Emergency surgery",
            "Unplanned heart or vascular surgery within 24 hours of the entrapment, for it or for its harm.",
            Sources.CONVENTION),
    STROKE(
            "Stroke",
            "New neurological deficit of vascular cause that lasted 24 hours, showed on imaging or was fatal.",
            Sources.COMMON_PRACTICE),
    MAJOR_BLEEDING("Major bleeding", "Bleeding of BARC type 3, 4 or 5; tamponade is at least type 3.", Sources.BARC),
    IN_HOSPITAL_DEATH("In-hospital death", "Death from any cause before discharge.", Sources.COMMON_PRACTICE);

    private final Coding coding;

    Complication(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
