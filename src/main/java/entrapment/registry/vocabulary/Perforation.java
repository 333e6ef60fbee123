package entrapment.registry.vocabulary;

/** The field {@code perforation}: the worst coronary perforation after the entrapment, by Ellis type. */
public enum Perforation implements Code {
    NONE(
            "none",
            "None",
            "No perforation seen; a leak from the distal wire alone is coded as a complication.",
            Sources.CONVENTION),
    I("I", "Type I", "Crater outside the lumen without leak of contrast.", Sources.ELLIS),
    II("II", "Type II", "Blush in the pericardium or myocardium without a jet.", Sources.ELLIS),
    III("III", "Type III", "Jet of contrast through a hole of 1 mm or more.", Sources.ELLIS),
    III_CAVITY(
            "III-cavity",
            "Type III, cavity spilling",
            "Jet into a ventricle, the coronary sinus or another cavity; called IV by some authors.",
            Sources.ELLIS),
    UNKNOWN("unknown", "Unknown", "Not recorded, or the record does not tell.", Sources.CONVENTION);

    private final Coding coding;

    Perforation(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
