package entrapment.registry.demo;

import java.util.List;

/**
 * What is true in the invented network: who works there, how likely an entrapment is and what frees a device. All of it
 * is planted, and none of it is a finding; {@link DemoReadme} writes it down beside the files.
 */
final class DemoTruth {

    record Centre(String code, String name, int usesPerQuarter, double oddsMultiplier, List<String> without) {}

    /** Probability of an entrapment per use where every factor is at its reference level. */
    record Baseline(String deviceClass, double perThousand) {
        double odds() {
            return perThousand / (1000 - perThousand);
        }
    }

    /** A level of a factor and the odds ratio it has against the factor's reference, the same in every device class. */
    record Effect(String factor, String level, double oddsRatio) {}

    /** How likely a technique is to release the device when nothing was tried before. */
    record Technique(String code, double firstTry) {}

    static final List<Centre> CENTRES = List.of(
            new Centre("tarnoquill", "Tarnoquill University Hospital", 560, 1.0, List.of()),
            new Centre("ulbrethan", "Ulbrethan General Hospital", 400, 0.9, List.of("laser-catheter")),
            new Centre("vessimarrow", "Vessimarrow Heart Centre", 330, 1.8, List.of("laser-catheter", "filter")),
            new Centre(
                    "ondrevesk", "Ondrevesk Infirmary", 220, 1.1, List.of("laser-catheter", "filter", "orbital-crown")),
            new Centre(
                    "pellaquine",
                    "Pellaquine District Hospital",
                    160,
                    1.0,
                    List.of("laser-catheter", "filter", "orbital-crown", "lithotripsy-balloon")));

    static final List<String> PERIODS = List.of(
            "2023-Q3", "2023-Q4", "2024-Q1", "2024-Q2", "2024-Q3", "2024-Q4", "2025-Q1", "2025-Q2", "2025-Q3",
            "2025-Q4", "2026-Q1", "2026-Q2");

    static final List<Baseline> BASELINES = List.of(
            new Baseline("guidewire", 1.0),
            new Baseline("balloon", 2.0),
            new Baseline("scoring-balloon", 2.5),
            new Baseline("lithotripsy-balloon", 2.0),
            new Baseline("stent", 3.0),
            new Baseline("rotational-burr", 4.5),
            new Baseline("orbital-crown", 2.5),
            new Baseline("laser-catheter", 2.0),
            new Baseline("microcatheter", 4.0),
            new Baseline("guide-extension", 2.0),
            new Baseline("imaging-catheter", 2.0),
            new Baseline("filter", 3.0));

    /** A burr of 1.25 mm against any larger one; other classes have no effect of size. */
    static final double SMALL_BURR = 1.6;

    static final List<Effect> EFFECTS = List.of(
            new Effect("calcification", "mild", 1.2),
            new Effect("calcification", "moderate", 1.5),
            new Effect("calcification", "severe", 3.0),
            new Effect("tortuosity", "moderate", 1.4),
            new Effect("tortuosity", "severe", 2.2),
            new Effect("totalOcclusion", "yes", 2.0),
            new Effect("stentLayers", "1", 1.5),
            new Effect("stentLayers", "2-or-more", 2.2),
            new Effect("operatorStage", "in-training", 1.4),
            new Effect("operatorStage", "early-independent", 1.2));

    static final String CHANGE_CENTRE = "tarnoquill";
    static final String CHANGE_CLASS = "rotational-burr";
    static final String CHANGE_FROM = "2025-Q1";
    static final double CHANGE = 2.0;

    static final List<Technique> TECHNIQUES = List.of(
            new Technique("steady-traction", 0.25),
            new Technique("traction-guide-deep-seated", 0.30),
            new Technique("traction-guide-extension", 0.50),
            new Technique("microcatheter-capture", 0.40),
            new Technique("trapping-balloon", 0.45),
            new Technique("parallel-balloon", 0.55),
            new Technique("parallel-knuckle-balloon", 0.40),
            new Technique("balloon-through-stent", 0.60),
            new Technique("snare", 0.45),
            new Technique("forceps-or-basket", 0.35),
            new Technique("wire-entwining", 0.35),
            new Technique("lumen-wire", 0.45),
            new Technique("second-guide", 0.45),
            new Technique("device-rotation", 0.15),
            new Technique("vasodilator", 0.08),
            new Technique("deploy-in-place", 0.0),
            new Technique("stent-over-fragment", 0.0),
            new Technique("left-in-place", 0.0),
            new Technique("surgery", 0.85));

    /** Each earlier failure multiplies a technique's probability by this; surgery alone keeps its own. */
    static final double LATER_TRY = 0.9;

    private DemoTruth() {}

    /** The probability that this use ends in an entrapment; {@code lesion} is the truth, without unknown values. */
    static double entrapment(Centre centre, String period, UsePattern lesion) {
        double odds = baselineOdds(lesion.deviceClass()) * centre.oddsMultiplier();
        for (Effect effect : EFFECTS) {
            int column = UsePattern.COLUMNS.indexOf(effect.factor());
            if (lesion.values().get(column).equals(effect.level())) {
                odds *= effect.oddsRatio();
            }
        }
        if (lesion.deviceClass().equals("rotational-burr")
                && lesion.deviceSizeMm().equals("1.25")) {
            odds *= SMALL_BURR;
        }
        if (changed(centre, period, lesion)) {
            odds *= CHANGE;
        }
        return odds / (1 + odds);
    }

    private static boolean changed(Centre centre, String period, UsePattern lesion) {
        return centre.code().equals(CHANGE_CENTRE)
                && lesion.deviceClass().equals(CHANGE_CLASS)
                && period.compareTo(CHANGE_FROM) >= 0;
    }

    private static double baselineOdds(String deviceClass) {
        return BASELINES.stream()
                .filter(baseline -> baseline.deviceClass().equals(deviceClass))
                .findFirst()
                .orElseThrow()
                .odds();
    }

    /** The probability that a technique releases the device after so many failed attempts. */
    static double release(String technique, int failures) {
        double firstTry = TECHNIQUES.stream()
                .filter(known -> known.code().equals(technique))
                .findFirst()
                .orElseThrow()
                .firstTry();
        return technique.equals("surgery") ? firstTry : firstTry * StrictMath.pow(LATER_TRY, failures);
    }
}
