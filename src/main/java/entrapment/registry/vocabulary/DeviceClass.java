package entrapment.registry.vocabulary;

/** The field {@code deviceClass}: what kind of device was used, or got stuck. */
public enum DeviceClass implements Code {
    GUIDEWIRE(
            "guidewire",
            "Guidewire",
            "Coronary guidewire of any coating or stiffness, pressure wires and the wire under a burr or "
                    + "crown included.",
            Sources.CONVENTION),
    BALLOON(
            "balloon",
            "Balloon catheter",
            "Plain or drug-coated angioplasty balloon of any compliance, without scoring elements or pulse emitters.",
            Sources.CONVENTION),
    SCORING_BALLOON(
            "scoring-balloon",
            "Scoring or cutting balloon",
            "Balloon that carries blades, wires or raised elements to score plaque.",
            Sources.CONVENTION),
    LITHOTRIPSY_BALLOON(
            "lithotripsy-balloon",
            "Lithotripsy balloon",
            "Balloon with emitters whose acoustic pressure pulses fracture calcium.",
            Sources.CONVENTION),
    STENT(
            "stent",
            "Stent or its delivery system",
            "Stent or scaffold on its delivery system, lost from it, or the delivery balloon after deployment.",
            Sources.CONVENTION),
    ROTATIONAL_BURR(
            "rotational-burr",
            "Rotational atherectomy burr",
            "Abrasive burr spun about its own axis by a drive shaft over a dedicated wire.",
            Sources.CONVENTION),
    ORBITAL_CROWN(
            "orbital-crown",
            "Orbital atherectomy crown",
            "Eccentric abrasive crown that a drive shaft swings in an orbit over a dedicated wire.",
            Sources.CONVENTION),
    LASER_CATHETER(
            "laser-catheter",
            "Laser catheter",
            "Fibre catheter that ablates tissue by laser light at its tip.",
            Sources.CONVENTION),
    MICROCATHETER(
            "microcatheter",
            "Microcatheter",
            "Single- or dual-lumen catheter without a balloon, for support, exchange or crossing.",
            Sources.CONVENTION),
    GUIDE_EXTENSION(
            "guide-extension",
            "Guide extension",
            "Tube on a push rod that lengthens the guide catheter into the artery.",
            Sources.CONVENTION),
    IMAGING_CATHETER(
            "imaging-catheter",
            "Intravascular imaging catheter",
            "Catheter for intravascular ultrasound, optical coherence tomography or near-infrared spectroscopy.",
            Sources.CONVENTION),
    FILTER(
            "filter",
            "Embolic protection filter",
            "Filter on a wire placed beyond a lesion to catch debris, its recovery sheath included.",
            Sources.CONVENTION),
    OTHER(
            "other",
            "Other device",
            "A known intracoronary device that fits no other class, such as an aspiration catheter.",
            Sources.CONVENTION);

    private final Coding coding;

    DeviceClass(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
