package entrapment.registry.vocabulary;

/** The field {@code fragment}: where the largest part left in the body lay at the end of the procedure. */
public enum Fragment implements Code {
    NONE("Nothing left", "No part of the device stayed in the body."),
    STENTED_OVER("Stented over", "In a coronary artery or graft, pressed to its wall by a stent."),
    IN_VESSEL(
            "In the vessel",
            "In a coronary artery or graft, not covered; a lost stent expanded where it lay included."),
    IN_AORTA("Into the aorta", "In the aorta, or reaching into it from a coronary artery or graft."),
    EMBOLISED("Embolised", "Carried off to another vessel or to a heart chamber."),
    UNKNOWN("Unknown", "Not recorded, or not to be told, as a wire core or coil may not show on X-ray.");

    private final Coding coding;

    Fragment(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
