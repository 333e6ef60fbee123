package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Laws that hold for any counts, on random ones of every size from a fixed seed. */
class SeededTests {

    private static final int ROUNDS = 2000;

    private final Random random = new Random(20_310_101);

    @Test
    void noAnswerHoldsANaN() {
        for (int round = 0; round < ROUNDS; round++) {
            Proportion a = proportion();
            Proportion b = proportion();

            refuseNaN(ProportionAnalysis.of(a, confidence()));
            refuseNaN(RateAnalysis.of(new Rate(a.events(), a.of()), 1000, confidence()));
            refuseNaN(DifferenceAnalysis.of(a, b, confidence()));
            refuseNaN(RelativeRiskAnalysis.of(a, b, confidence()));
            refuseNaN(OddsRatioAnalysis.of(TwoByTwo.of(rare(), rare()), confidence()));
            refuseNaN(AttemptsAnalysis.of(patterns(), confidence()));
        }
    }

    @Test
    void exactLimitsContainTheScoreEstimateAndReachBeyondMidP() {
        for (int round = 0; round < ROUNDS; round++) {
            OddsRatioAnalysis analysis = OddsRatioAnalysis.of(TwoByTwo.of(rare(), rare()), confidence());

            assertThat(lower(analysis.exact())).isLessThanOrEqualTo(lower(analysis.midP()));
            assertThat(upper(analysis.exact())).isGreaterThanOrEqualTo(upper(analysis.midP()));
            assertThat(analysis.centralPValue()).isGreaterThanOrEqualTo(analysis.midPValue());
            if (analysis.conditionalMle() != null) {
                assertThat(analysis.conditionalMle()).isBetween(lower(analysis.midP()), upper(analysis.midP()));
            }
        }
    }

    @Test
    void swappingTheGroupsInvertsRatiosAndKeepsPValues() {
        for (int round = 0; round < ROUNDS; round++) {
            Proportion a = rare();
            Proportion b = rare();
            OddsRatioAnalysis one = OddsRatioAnalysis.of(TwoByTwo.of(a, b), Confidence.DEFAULT);
            OddsRatioAnalysis other = OddsRatioAnalysis.of(TwoByTwo.of(b, a), Confidence.DEFAULT);

            assertThat(one.fisherPValue()).isCloseTo(other.fisherPValue(), within(1e-11 * other.fisherPValue()));
            assertThat(one.midPValue()).isCloseTo(other.midPValue(), within(1e-11 * other.midPValue()));
            if (lower(one.midP()) > 0) {
                assertThat(lower(one.midP()) * upper(other.midP())).isCloseTo(1, within(1e-10));
            }
            Interval score = RelativeRiskAnalysis.of(a, b, Confidence.DEFAULT).koopman();
            Interval mirrored =
                    RelativeRiskAnalysis.of(b, a, Confidence.DEFAULT).koopman();
            if (lower(score) > 0) {
                assertThat(lower(score) * upper(mirrored)).isCloseTo(1, within(1e-10));
            }
        }
    }

    @Test
    void theWilsonDifferenceLiesInsideTheCorrectedOne() {
        for (int round = 0; round < ROUNDS; round++) {
            DifferenceAnalysis analysis = DifferenceAnalysis.of(used(), used(), Confidence.DEFAULT);

            assertThat(lower(analysis.newcombe())).isGreaterThanOrEqualTo(lower(analysis.newcombeContinuity()));
            assertThat(upper(analysis.newcombe())).isLessThanOrEqualTo(upper(analysis.newcombeContinuity()));
            assertThat(analysis.difference()).isBetween(lower(analysis.newcombe()), upper(analysis.newcombe()));
        }
    }

    @Test
    void orderAndGroupingOfCasesChangeNothing() {
        for (int round = 0; round < ROUNDS; round++) {
            List<AttemptPattern> patterns = patterns();
            List<AttemptPattern> shuffled = new ArrayList<>(patterns);
            Collections.shuffle(shuffled, random);
            List<AttemptPattern> split = new ArrayList<>();
            for (AttemptPattern pattern : shuffled) {
                long part = random.nextLong(pattern.cases() + 1);
                split.add(new AttemptPattern(pattern.results(), part));
                split.add(new AttemptPattern(pattern.results(), pattern.cases() - part));
            }

            assertThat(AttemptsAnalysis.of(split, Confidence.DEFAULT))
                    .isEqualTo(AttemptsAnalysis.of(patterns, Confidence.DEFAULT));
        }
    }

    @Test
    void theIntervalPerAttemptIsNeverNarrowerThanTheNaiveOne() {
        for (int round = 0; round < ROUNDS; round++) {
            ClusteredProportion perAttempt =
                    AttemptsAnalysis.of(patterns(), Confidence.DEFAULT).perAttempt();

            if (perAttempt.attempts() > 0) {
                assertThat(lower(perAttempt.effectiveWilson())).isLessThanOrEqualTo(lower(perAttempt.naiveWilson()));
                assertThat(upper(perAttempt.effectiveWilson())).isGreaterThanOrEqualTo(upper(perAttempt.naiveWilson()));
            }
        }
    }

    @Test
    void aHigherLevelGivesAWiderIntervalOfEveryKind() {
        for (int round = 0; round < ROUNDS; round++) {
            TwoByTwo table = TwoByTwo.of(rare(), rare());
            Rate rate = new Rate(random.nextInt(500), 1 + random.nextInt(9999));
            Confidence high = new Confidence(0.99);

            inside(
                    OddsRatioAnalysis.of(table, Confidence.DEFAULT).midP(),
                    OddsRatioAnalysis.of(table, high).midP());
            inside(rate.garwood(Confidence.DEFAULT), rate.garwood(high));
            inside(rate.byar(Confidence.DEFAULT), rate.byar(high));
        }
    }

    @Test
    void levelsAreTheirTablesWithTheReferenceInAnyOrder() {
        for (int round = 0; round < ROUNDS / 10; round++) {
            List<Group> groups = new ArrayList<>();
            for (int i = 0; i < 2 + random.nextInt(4); i++) {
                groups.add(new Group("level " + i, rare()));
            }
            Collections.shuffle(groups, random);
            OddsRatioLevelsAnalysis analysis = OddsRatioLevelsAnalysis.of(groups, "level 0", Confidence.DEFAULT);

            assertThat(analysis.levels()).hasSize(groups.size() - 1);
            Proportion reference = find(groups, "level 0");
            for (OddsRatioLevelsAnalysis.Level level : analysis.levels()) {
                OddsRatioAnalysis table =
                        OddsRatioAnalysis.of(TwoByTwo.of(find(groups, level.name()), reference), Confidence.DEFAULT);
                assertThat(level.midP()).isEqualTo(table.midP());
                assertThat(level.fisherPValue()).isEqualTo(table.fisherPValue());
            }
        }
    }

    private static Proportion find(List<Group> groups, String name) {
        return groups.stream()
                .filter(group -> group.name().equals(name))
                .findFirst()
                .orElseThrow()
                .proportion();
    }

    private static void inside(Interval narrow, Interval wide) {
        assertThat(lower(wide)).isLessThanOrEqualTo(lower(narrow));
        assertThat(upper(wide)).isGreaterThanOrEqualTo(upper(narrow));
    }

    private Confidence confidence() {
        return new Confidence(0.5 + 0.4999 * random.nextDouble());
    }

    /** Sizes spread evenly over their logarithm, up to the largest that is allowed, and often at an end. */
    private Proportion proportion() {
        long of = size(31);
        return switch (random.nextInt(4)) {
            case 0 -> new Proportion(0, of);
            case 1 -> new Proportion(of, of);
            default -> new Proportion(Math.min(of, size(31)), of);
        };
    }

    private Proportion used() {
        long of = 1L + random.nextInt(100_000);
        return new Proportion(random.nextLong(of + 1), of);
    }

    /** Few events in anything from none to millions. */
    private Proportion rare() {
        long of = size(24);
        return new Proportion(Math.min(of, random.nextInt(40)), of);
    }

    private long size(int bits) {
        return (long) Math.floor(Math.pow(2, bits * random.nextDouble())) - 1;
    }

    private List<AttemptPattern> patterns() {
        List<AttemptPattern> patterns = new ArrayList<>();
        for (int i = random.nextInt(8); i > 0; i--) {
            List<Boolean> results = new ArrayList<>();
            for (int j = 1 + random.nextInt(5); j > 0; j--) {
                results.add(random.nextInt(3) == 0);
            }
            patterns.add(new AttemptPattern(results, random.nextInt(20)));
        }
        return patterns;
    }

    private static void refuseNaN(Object answer) {
        refuseNaN(ReferenceValues.JSON.<JsonNode>valueToTree(answer), answer);
    }

    private static void refuseNaN(JsonNode node, Object answer) {
        assertThat(node.isNumber() && Double.isNaN(node.doubleValue()))
                .as("NaN in %s", answer)
                .isFalse();
        node.forEach(child -> refuseNaN(child, answer));
    }
}
