package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Laws that hold for any counts, on random ones of every size from a fixed seed. */
class WatchSeededTests {

    private static final int ROUNDS = 400;

    private final Random random = new Random(20_310_103);

    @Test
    void noAnswerHoldsANaN() {
        for (int round = 0; round < ROUNDS; round++) {
            List<Group> centres = centres();
            List<Proportion> periods = centres.stream().map(Group::proportion).toList();

            refuseNaN(TrendAnalysis.of(scored(periods)));
            refuseNaN(PChartAnalysis.of(periods, tail()));
            refuseNaN(UChartAnalysis.of(
                    periods.stream()
                            .map(p -> new Rate(p.events(), p.of() / 7.0))
                            .toList(),
                    tail()));
            refuseNaN(GChartAnalysis.of(periods.stream().map(Proportion::of).toList(), tail()));
            refuseNaN(TChartAnalysis.of(periods.stream().map(p -> p.of() / 3.0).toList(), tail()));
            refuseNaN(FunnelAnalysis.of(centres));
            refuseNaN(FunnelAnalysis.of(centres, share()));
            refuseNaN(FunnelOverdispersionAnalysis.of(centres, 0.49 * random.nextDouble()));
            refuseNaN(IndirectStandardisationAnalysis.of(periods, periods, confidence()));
            refuseNaN(DirectStandardisationAnalysis.of(
                    periods.stream()
                            .map(p -> new WeightedStratum(p, 0.1 + random.nextDouble()))
                            .toList(),
                    confidence()));
            refuseNaN(MissingOutcomeBoundsAnalysis.of(periods.get(0), random.nextInt(1000), confidence()));
            refuseNaN(PlanDetectableChangeAnalysis.of(
                    1 + random.nextInt(100_000), share(), 0.025, 0.5 + 0.49 * random.nextDouble()));
            refuseNaN(PlanPrecisionAnalysis.of(share(), 0.001 + 0.4 * random.nextDouble(), share(), confidence()));
            refuseNaN(PlanComparisonAnalysis.of(
                    new PlanComparison(share(), share(), 0.05, 0.8, 0.1 + random.nextDouble()), 100L));
        }
    }

    @Test
    void noModelOfCentresHoldsANaN() {
        for (int round = 0; round < ROUNDS / 4; round++) {
            List<Group> centres = centres();

            refuseNaN(ShrinkageAnalysis.of(centres, confidence()));
            refuseNaN(PooledProportionAnalysis.of(centres, confidence()));
            refuseNaN(PooledEffectsAnalysis.ofCentres(centres, confidence()));
        }
    }

    @Test
    void higherConfidenceGivesWiderIntervals() {
        Confidence low = new Confidence(0.8);
        Confidence high = new Confidence(0.99);
        for (int round = 0; round < ROUNDS; round++) {
            List<Proportion> reference =
                    centres().stream().map(Group::proportion).toList();
            List<Proportion> centre = reference.stream()
                    .map(p -> new Proportion(Math.min(p.events(), p.of() / 3), p.of() / 2))
                    .toList();
            wider(
                    IndirectStandardisationAnalysis.of(reference, centre, low).exact(),
                    IndirectStandardisationAnalysis.of(reference, centre, high).exact());
            List<WeightedStratum> strata =
                    reference.stream().map(p -> new WeightedStratum(p, 1)).toList();
            wider(
                    DirectStandardisationAnalysis.of(strata, low).fayFeuer(),
                    DirectStandardisationAnalysis.of(strata, high).fayFeuer());
            Proportion known = reference.get(0);
            wider(
                    MissingOutcomeBoundsAnalysis.of(known, 5, low).envelope(),
                    MissingOutcomeBoundsAnalysis.of(known, 5, high).envelope());
        }
    }

    @Test
    void moreEventsNeverMoveAFlagDown() {
        for (int round = 0; round < ROUNDS; round++) {
            long of = 1L + random.nextInt(3000);
            double target = share();
            FunnelAnalysis.Position before = FunnelAnalysis.Position.BELOW_998;
            for (long events = 0; events <= Math.min(of, 40); events++) {
                FunnelAnalysis.Position flag = FunnelAnalysis.of(
                                List.of(new Group("c", new Proportion(events, of))), target)
                        .centres()
                        .get(0)
                        .flag();
                assertThat(flag).isLessThanOrEqualTo(before); // listed from above to below
                before = flag;
            }
        }
    }

    @Test
    void theDefaultOfTheModelsAgreesWithTheirData() {
        for (int round = 0; round < ROUNDS / 4; round++) {
            List<Group> centres = centres();
            PooledProportionAnalysis pooled = PooledProportionAnalysis.of(centres, Confidence.DEFAULT);
            if (pooled.mu() != null) {
                assertThat(pooled.waldAsProportion().estimate())
                        .isBetween(
                                pooled.waldAsProportion().lower(),
                                pooled.waldAsProportion().upper());
                assertThat(Limits.lower(pooled.predictionAsProportion()))
                        .isLessThanOrEqualTo(pooled.waldAsProportion().lower());
                assertThat(pooled.lrHeterogeneity()).isNotNegative();
            }
        }
    }

    private static void wider(Interval low, Interval high) {
        if (low.lower() != null) {
            assertThat(Limits.lower(high)).isLessThanOrEqualTo(Limits.lower(low));
            assertThat(Limits.upper(high)).isGreaterThanOrEqualTo(Limits.upper(low));
        }
    }

    /** One to twenty centres from one use to a million, some empty, with rates from none to all. */
    private List<Group> centres() {
        List<Group> centres = new ArrayList<>();
        int k = 1 + random.nextInt(20);
        double rate = Math.pow(10, -4 * random.nextDouble());
        int digits = 1 + random.nextInt(6);
        for (int i = 0; i < k; i++) {
            long of = random.nextInt(8) == 0 ? 0 : 1L + random.nextInt((int) Math.pow(10, digits));
            double own = Math.min(1, rate * random.nextDouble() * 2);
            long events = Math.min(of, Math.round(of * own * random.nextDouble() * 2));
            centres.add(new Group("c" + i, new Proportion(events, of)));
        }
        return centres;
    }

    private List<ScoredGroup> scored(List<Proportion> periods) {
        List<ScoredGroup> groups = new ArrayList<>();
        for (int i = 0; i < periods.size(); i++) {
            groups.add(new ScoredGroup(2020 + i, periods.get(i)));
        }
        return groups;
    }

    private Confidence confidence() {
        return new Confidence(0.5 + 0.4999 * random.nextDouble());
    }

    private double tail() {
        return 1e-4 + 0.2 * random.nextDouble();
    }

    private double share() {
        return Math.pow(10, -4 * random.nextDouble()) * 0.999;
    }

    private static void refuseNaN(Object answer) {
        refuseNaN(ReferenceValues.JSON.valueToTree(answer), answer);
    }

    private static void refuseNaN(JsonNode node, Object answer) {
        assertThat(node.isNumber() && Double.isNaN(node.doubleValue()))
                .as("%s", answer)
                .isFalse();
        node.forEach(child -> refuseNaN(child, answer));
    }
}
