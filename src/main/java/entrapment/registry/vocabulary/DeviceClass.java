package entrapment.registry.vocabulary;

/** The field {@code deviceClass}: what kind of device was used, or got stuck. */
public enum DeviceClass implements Code {
    GUIDEWIRE(
            "Guidewire",
            "Coronary guidewire of any coating or stiffness, pressure wires and the wire under a burr or "
                    + "crown included."),
    BALLOON(
            "Balloon catheter",
            "Plain or drug-coated angioplasty balloon of any compliance, without scoring elements or pulse emitters."),
    SCORING_BALLOON(
            "Scoring or cutting balloon", "Balloon that carries blades, wires or raised elements to score plaque."),
    LITHOTRIPSY_BALLOON(
            "Lithotripsy balloon", "Balloon with emitters whose acoustic pressure pulses fracture calcium."),
    STENT(
            "Stent or its delivery system",
            "Stent or scaffold on its delivery system, lost from it, or the delivery balloon after deployment."),
    ROTATIONAL_BURR(
            "Rotational atherectomy burr",
            "Abrasive burr spun about its own axis by a drive shaft over a dedicated wire."),
    ORBITAL_CROWN(
            "Orbital atherectomy crown",
            "Eccentric abrasive crown that a drive shaft swings in an orbit over a dedicated wire."),
    LASER_CATHETER("Laser catheter", "Fibre catheter that ablates tissue by laser light at its tip."),
    MICROCATHETER(
            "Microcatheter", "Single- or dual-lumen catheter without a balloon, for support, exchange or crossing."),
    GUIDE_EXTENSION("Guide extension", "Tube on a push rod that lengthens the guide catheter into the artery."),
    IMAGING_CATHETER(
            "Intravascular imaging catheter",
            "Catheter for intravascular ultrasound, optical coherence tomography or near-infrared spectroscopy."),
    FILTER(
            "Embolic protection filter",
            "Filter on a wire placed beyond a lesion to catch debris, its recovery sheath included."),
    OTHER("Other device", "A known intracoronary device that fits no other class, such as an aspiration catheter.");

    private final Coding coding;

    DeviceClass(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
