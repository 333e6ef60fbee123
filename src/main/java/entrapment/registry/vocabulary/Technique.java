package entrapment.registry.vocabulary;

/** The field {@code technique}: what one attempt at retrieval did. Descriptions for coding, not advice. */
public enum Technique implements Code {
    STEADY_TRACTION(
            "Steady traction",
            "The device or its wire was pulled evenly, beyond a usual withdrawal, with the guide left where it was.",
            Sources.COMMON_PRACTICE),
    TRACTION_GUIDE_DEEP_SEATED(
            "Traction, guide deep-seated",
            "The device was pulled while the guide catheter itself was held deep in the artery; needs a coaxial guide.",
            Sources.COMMON_PRACTICE),
    TRACTION_GUIDE_EXTENSION(
            "Traction through a guide extension",
            "A guide extension was brought over the shaft to the device for the pull; needs a shaft it can pass over.",
            "Nguyen CT et al., Cureus 2024 (doi:10.7759/cureus.52893)"),
    MICROCATHETER_CAPTURE(
            "Capture by microcatheter",
            "A microcatheter or over-the-wire balloon was run over a stuck wire towards its tip; needs an intact wire.",
            Sources.COMMON_PRACTICE),
    TRAPPING_BALLOON(
            "Trapping balloon",
            "A balloon inflated in guide or extension pinned the device to its wall; needs an end lying inside.",
            "Kaier TE et al., J Invasive Cardiol 2022;34:E640"),
    PARALLEL_BALLOON(
            "Balloon beside the device",
            "A balloon was inflated beside the device over a second wire in the lumen; needs room in a guide "
                    + "and a wire past.",
            "Ikeda S et al., J Cardiol Cardiovasc Ther 2017;7:555705"),
    PARALLEL_KNUCKLE_BALLOON(
            "Balloon beside the device, subintimal",
            "As the balloon beside the device, but over a looped wire taken past it under the intima; needs "
                    + "such a track.",
            Sources.COMMON_PRACTICE),
    BALLOON_THROUGH_STENT(
            "Balloon through a lost stent",
            "A small balloon was passed into an unexpanded stent, inflated and drawn back; needs a wire "
                    + "still through it.",
            "Eggebrecht H et al., Catheter Cardiovasc Interv 2000;51:432"),
    SNARE(
            "Snare",
            "A wire loop was closed around a part of the device; needs a free end or edge within reach.",
            "Brilakis ES et al., Catheter Cardiovasc Interv 2005;66:333 [from memory]"),
    FORCEPS_OR_BASKET(
            "Forceps or basket",
            "Forceps, bioptome, basket or multi-arm retriever gripped the device; needs a lumen wide enough "
                    + "for the tool.",
            "Brilakis ES et al., Catheter Cardiovasc Interv 2005;66:333 [from memory]"),
    WIRE_ENTWINING(
            "Entwined wires",
            "Two or more wires were twisted around the device and drawn back together; needs wires through "
                    + "or beside it.",
            "Brilakis ES et al., Catheter Cardiovasc Interv 2005;66:333 [from memory]"),
    LUMEN_WIRE(
            "Wire into the device lumen",
            "A wire was advanced inside the emptied lumen of the device to stiffen it; needs an open lumen.",
            Sources.COMMON_PRACTICE),
    SECOND_GUIDE(
            "Second guide catheter",
            "A second guide catheter at the same ostium was itself the means of release; needs a second "
                    + "arterial access.",
            "Nguyen CT et al., Cureus 2024 (doi:10.7759/cureus.52893)"),
    DEVICE_ROTATION(
            "Rotating the device",
            "The device or its drive shaft was turned, by hand or by its motor, to free it; needs a shaft "
                    + "that passes on torque.",
            Sources.COMMON_PRACTICE),
    VASODILATOR(
            "Vasodilator",
            "Nitrate or another vasodilator was given to relax the vessel around the device; needs a "
                    + "pressure that bears it.",
            Sources.COMMON_PRACTICE),
    DEPLOY_IN_PLACE(
            "Deployed in place",
            "A lost stent was expanded where it lay instead of being retrieved; needs a wire through it.",
            "PMID 24296383, J Invasive Cardiol 2013;25:637 [from memory]"),
    STENT_OVER_FRAGMENT(
            "Stent over the fragment",
            "A lost stent or a fragment was pressed to the vessel wall under a new stent; needs a wire beside it.",
            "PMID 24296383, J Invasive Cardiol 2013;25:637 [from memory]"),
    LEFT_IN_PLACE(
            "Left in place",
            "The team decided to leave the device or fragment as it lay, without covering or expanding it.",
            "Hartzler GO et al., Am J Cardiol 1987;60:1260"),
    SURGERY(
            "Surgery",
            "Open surgery was begun to remove the device or, with the device left, to bypass it.",
            "Chang TMT et al., Tex Heart Inst J 2002;29:329"),
    OTHER("Other technique", "A known attempt to free the device that is none of these.", Sources.CONVENTION);

    private final Coding coding;

    Technique(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
