package entrapment.registry.demo;

import entrapment.registry.demo.DemoTruth.Centre;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Which devices go into which lesions, and how much of that a centre puts into its return. */
final class DemoLesions {

    /** Share of uses whose calcification, or tortuosity, nobody wrote down; independent of what happened. */
    static final double NOT_WRITTEN_DOWN = 0.03;

    /** Before this quarter Ondrevesk did not count who operated. */
    static final String STAGE_UNKNOWN_AT = "ondrevesk";

    static final String STAGE_KNOWN_FROM = "2024-Q3";

    /**
     * How a device class is used. {@code share} is per 1,000 uses; the other texts are mixes; {@code reported} are the
     * columns a return fills for this class, few where a department counts from the stock list.
     */
    private record Habit(
            String deviceClass,
            int share,
            String sizes,
            String calcification,
            String tortuosity,
            String totalOcclusion,
            String stentLayers,
            Set<String> reported) {}

    private static final String ANY_SIZE = "- 1";
    private static final String USUAL_CALCIUM = "none 32 mild 31 moderate 24 severe 13";
    private static final String HEAVY_CALCIUM = "none 2 mild 4 moderate 26 severe 68";
    private static final String USUAL_BENDS = "mild 68 moderate 24 severe 8";
    private static final String MORE_BENDS = "mild 58 moderate 31 severe 11";
    private static final String FEW_OCCLUSIONS = "yes 8 no 92";
    private static final String SOME_OCCLUSIONS = "yes 15 no 85";
    private static final String USUAL_STENTS = "0 84 1 13 2-or-more 3";
    private static final String VESSELS = "left-main 5 lad 42 circumflex 20 rca 30 graft 3";
    private static final String BURR_VESSELS = "left-main 3 lad 57 circumflex 10 rca 30";

    private static final List<Habit> HABITS = List.of(
            new Habit(
                    "guidewire",
                    300,
                    ANY_SIZE,
                    USUAL_CALCIUM,
                    USUAL_BENDS,
                    SOME_OCCLUSIONS,
                    USUAL_STENTS,
                    Set.of("vessel", "totalOcclusion")),
            new Habit(
                    "balloon",
                    210,
                    ANY_SIZE,
                    USUAL_CALCIUM,
                    USUAL_BENDS,
                    SOME_OCCLUSIONS,
                    USUAL_STENTS,
                    Set.of("vessel", "calcification")),
            new Habit(
                    "scoring-balloon",
                    18,
                    ANY_SIZE,
                    "none 6 mild 26 moderate 44 severe 24",
                    USUAL_BENDS,
                    FEW_OCCLUSIONS,
                    "0 60 1 32 2-or-more 8",
                    Set.of("calcification")),
            new Habit(
                    "lithotripsy-balloon",
                    15,
                    "2.5 25 3 45 3.5 30",
                    HEAVY_CALCIUM,
                    USUAL_BENDS,
                    FEW_OCCLUSIONS,
                    "0 80 1 16 2-or-more 4",
                    Set.of("deviceSizeMm", "calcification")),
            new Habit(
                    "stent",
                    208,
                    ANY_SIZE,
                    USUAL_CALCIUM,
                    USUAL_BENDS,
                    FEW_OCCLUSIONS,
                    USUAL_STENTS,
                    Set.of("vessel", "calcification", "stentLayers")),
            new Habit(
                    "rotational-burr",
                    115,
                    "1.25 44 1.5 44 1.75 10 2 2",
                    HEAVY_CALCIUM,
                    "mild 70 moderate 24 severe 6",
                    "yes 8 no 92",
                    "0 94 1 5 2-or-more 1",
                    Set.of(
                            "deviceSizeMm",
                            "vessel",
                            "calcification",
                            "tortuosity",
                            "totalOcclusion",
                            "stentLayers",
                            "guideFrench",
                            "operatorStage")),
            new Habit(
                    "orbital-crown",
                    15,
                    "1.25 1",
                    HEAVY_CALCIUM,
                    USUAL_BENDS,
                    FEW_OCCLUSIONS,
                    "0 95 1 4 2-or-more 1",
                    Set.of("deviceSizeMm", "calcification", "tortuosity")),
            new Habit(
                    "laser-catheter",
                    4,
                    "0.9 70 1.4 30",
                    "none 10 mild 35 moderate 35 severe 20",
                    USUAL_BENDS,
                    "yes 40 no 60",
                    "0 40 1 45 2-or-more 15",
                    Set.of("deviceSizeMm", "calcification")),
            new Habit(
                    "microcatheter",
                    68,
                    ANY_SIZE,
                    "none 15 mild 27 moderate 34 severe 24",
                    MORE_BENDS,
                    "yes 52 no 48",
                    "0 86 1 11 2-or-more 3",
                    Set.of("calcification", "totalOcclusion")),
            new Habit(
                    "guide-extension",
                    25,
                    ANY_SIZE,
                    "none 10 mild 22 moderate 38 severe 30",
                    "mild 35 moderate 43 severe 22",
                    SOME_OCCLUSIONS,
                    USUAL_STENTS,
                    Set.of("tortuosity")),
            new Habit(
                    "imaging-catheter",
                    38,
                    ANY_SIZE,
                    USUAL_CALCIUM,
                    USUAL_BENDS,
                    FEW_OCCLUSIONS,
                    "0 66 1 28 2-or-more 6",
                    Set.of("stentLayers")),
            new Habit(
                    "filter",
                    3,
                    ANY_SIZE,
                    "none 50 mild 35 moderate 15",
                    USUAL_BENDS,
                    "no 1",
                    "0 70 1 25 2-or-more 5",
                    Set.of("vessel")));

    private final DemoRandom random;

    DemoLesions(DemoRandom random) {
        this.random = random;
    }

    /** A use as it really was: every factor has a value (a size only where the class is sized here). */
    UsePattern use(Centre centre) {
        Habit habit = habit(centre);
        String size = random.pick(habit.sizes());
        String vessels = habit.deviceClass().equals("rotational-burr") ? BURR_VESSELS : VESSELS;
        return new UsePattern(
                habit.deviceClass(),
                size.equals("-") ? "" : size,
                habit.deviceClass().equals("filter") ? "graft" : random.pick(vessels),
                random.pick(habit.calcification()),
                random.pick(habit.tortuosity()),
                random.pick(habit.totalOcclusion()),
                random.pick(habit.stentLayers()),
                random.pick(guides(size)),
                random.pick("in-training 20 early-independent 15 established 65"));
    }

    private Habit habit(Centre centre) {
        StringBuilder mix = new StringBuilder();
        for (Habit habit : HABITS) {
            int share = centre.without().contains(habit.deviceClass()) ? 0 : habit.share();
            mix.append(mix.isEmpty() ? "" : " ")
                    .append(habit.deviceClass())
                    .append(' ')
                    .append(share);
        }
        String deviceClass = random.pick(mix.toString());
        return HABITS.stream()
                .filter(habit -> habit.deviceClass().equals(deviceClass))
                .findFirst()
                .orElseThrow();
    }

    /** Guides a burr of this size passes through: 6 Fr to 1.75 mm, 7 Fr to 2 mm; common practice, no single source. */
    private static String guides(String size) {
        return switch (size) {
            case "1.75" -> "6 45 7 50 8 5";
            case "2" -> "7 70 8 30";
            default -> "6 78 7 19 8 3";
        };
    }

    /** The same use as the centre reports it, some factors unknown. */
    UsePattern reported(Centre centre, String period, UsePattern use) {
        Set<String> reported = HABITS.stream()
                .filter(habit -> habit.deviceClass().equals(use.deviceClass()))
                .findFirst()
                .orElseThrow()
                .reported();
        List<String> values = new ArrayList<>();
        for (int i = 0; i < UsePattern.COLUMNS.size(); i++) {
            String column = UsePattern.COLUMNS.get(i);
            boolean told = i == 0 || (reported.contains(column) && !lost(column, centre, period));
            values.add(told ? use.values().get(i) : "");
        }
        return UsePattern.of(values);
    }

    private boolean lost(String column, Centre centre, String period) {
        return switch (column) {
            case "calcification", "tortuosity" -> random.chance(NOT_WRITTEN_DOWN);
            case "operatorStage" -> centre.code().equals(STAGE_UNKNOWN_AT) && period.compareTo(STAGE_KNOWN_FROM) < 0;
            default -> false;
        };
    }
}
