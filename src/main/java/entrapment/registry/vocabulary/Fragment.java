package entrapment.registry.vocabulary;

/** The field {@code fragment}: where the largest part left in the body lay at the end of the procedure. */
public enum Fragment implements Code {
    NONE("none", "Nothing left", "No part of the device stayed in the body.", Sources.CONVENTION),
    STENTED_OVER(
            "stented-over",
            "Stented over",
            "In a coronary artery or graft, pressed to its wall by a stent.",
            Sources.CONVENTION),
    IN_VESSEL(
            "in-vessel",
            "In the vessel",
            "In a coronary artery or graft, not covered; a lost stent expanded where it lay included.",
            Sources.CONVENTION),
    IN_AORTA(
            "in-aorta",
            "Into the aorta",
            "In the aorta, or reaching into it from a coronary artery or graft.",
            Sources.CONVENTION),
    EMBOLISED("embolised", "Embolised", "Carried off to another vessel or to a heart chamber.", Sources.CONVENTION),
    UNKNOWN(
            "unknown",
            "Unknown",
            "Not recorded, or not to be told, as a wire core or coil may not show on X-ray.",
            Sources.CONVENTION);

    private final Coding coding;

    Fragment(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
