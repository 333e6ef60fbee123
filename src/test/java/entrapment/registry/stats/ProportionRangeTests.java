package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * No proportion and no probability lies outside [0, 1], however few the counts and whatever the level. Every real number and
 * every interval of an answer is taken for one unless it is named here as something else, so a new figure is not forgotten.
 */
class ProportionRangeTests {

    private static final double[] LEVELS = {0.5, 0.8, 0.9, 0.95, 0.99, 0.999, 0.9999};

    private static final int ROUNDS = 20;

    /** Ratios, odds, rates, differences, counts, times, statistics and logarithms. */
    private static final Set<String> OTHER = Set.of("""
            alpha beta arl arl0 targetArl0 byar garwood rate ratio waldLog calibrationInterceptAtSlope1
            calibrationInterceptFree calibrationSlope chi2 lrChi2 pearsonChi2 plrChi2 statistic z slope conditionalMle exact
            midP rbg oddsRatio oddsRatioImplied profileOddsRatio medianOddsRatio profile logStandardError standardError
            designEffect effectiveN eventsExpected eventsPerParameter expected expectedEvents minExpected
            meanAttemptsPerCase difference newcombe newcombeContinuity per1000 detectableRatio dobson fayFeuer
            indirectlyStandardisedRate oOverE i2FromQ i2Reml q tau tau2 wald hartungKnappTruncated katz koopman relativeRisk
            logLikelihood nullLogLikelihood penalisedLogLikelihood residualDeviance lrHeterogeneity lrOverdispersion
            lrVsNoRandom taroneZ phi phiUnwinsorised zAdditive zMultiplicative zNaive sdRandomIntercept
            varianceRandomIntercept maximum path thresholdInWeights weightEventFirst weightNoEventFirst meanGap meanTime
            meanMovingRange threeSigma n1Continuity n1Exact""".split("\\s+"));

    /** The same by a name that stands for a proportion elsewhere. */
    private static final Set<String> OTHER_HERE = Set.of("""
            LogisticAnalysis.Coefficient.estimate LogisticAnalysis.Coefficient.lower LogisticAnalysis.Coefficient.upper
            LogisticFirthAnalysis.Coefficient.estimate LogisticRandomInterceptAnalysis.Coefficient.estimate
            PooledEffect.estimate PooledEffect.hartungKnapp PooledEffect.predictionInterval PooledProportionAnalysis.mu
            TChartAnalysis.Exponential.lower TChartAnalysis.Exponential.median TChartAnalysis.Exponential.upper
            TChartAnalysis.Nelson.centre TChartAnalysis.Nelson.lower TChartAnalysis.Nelson.upper
            UChartAnalysis.centre UChartAnalysis.Subgroup.lower UChartAnalysis.Subgroup.upper
            Woolf.lower Woolf.upper""".split("\\s+"));

    @Test
    void holdsForEveryProportionOfUpToThirty() {
        Map<String, Double> outside = new TreeMap<>();
        for (int n = 0; n <= 30; n++) {
            for (int x = 0; x <= n; x++) {
                for (double level : LEVELS) {
                    walk("", ProportionAnalysis.of(new Proportion(x, n), new Confidence(level)), outside);
                }
            }
        }

        assertThat(outside).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(Calculation.class)
    void holdsForEveryMethodWithFewEvents(Calculation calculation) {
        Map<String, Double> outside = new TreeMap<>();
        Random random = new Random(20_310_107);
        int answered = 0;
        for (ReferenceValues.Example example :
                ReferenceValues.examples(calculation.code()::equals).toList()) {
            for (int round = 0; round < ROUNDS; round++) {
                JsonNode few = example.input().deepCopy();
                shrink(few, random);
                try {
                    walk("", ReferenceCalculations.answer(example.method(), few), outside);
                    answered++;
                } catch (IllegalArgumentException impossible) {
                    // Counts made at random may contradict each other, or leave a level without any.
                }
            }
        }

        assertThat(outside).isEmpty();
        assertThat(answered).isGreaterThan(ROUNDS / 2);
    }

    @Test
    void seesAProportionOutside() {
        record Figures(@Nullable Double estimate, Interval wilson, List<Double> holm, double oddsRatio) {}
        Map<String, Double> outside = new TreeMap<>();

        walk("", new Figures(-1e-9, new Interval(0.5, 1.1), List.of(1.0, 2.0), 7), outside);
        walk("", new Figures(null, Interval.NOT_ESTIMABLE, List.of(), 7), outside);

        assertThat(outside.values()).containsExactlyInAnyOrder(-1e-9, 1.1, 2.0);
    }

    /** Events of few uses, at one of the levels, in place of the example's own. */
    private static void shrink(JsonNode node, Random random) {
        if (node instanceof ObjectNode object) {
            for (String whole : List.of("of", "known", "exposure")) {
                if (object.has(whole) && object.has("events")) {
                    int uses = random.nextInt(7);
                    object.put(whole, uses).put("events", random.nextInt(uses + 1));
                }
            }
            if (object.has("confidence")) {
                object.put("confidence", LEVELS[random.nextInt(LEVELS.length)]);
            }
            if (object.has("anticipatedProportion")) {
                object.put("anticipatedProportion", random.nextInt(11) / 10.0);
            }
            if (object.has("volume")) {
                object.put("volume", 1 + random.nextInt(30));
            }
        }
        node.forEach(child -> shrink(child, random));
    }

    private static void walk(String name, @Nullable Object value, Map<String, Double> outside) {
        if (value instanceof Iterable<?> list) {
            list.forEach(each -> walk(name, each, outside));
        } else if (value instanceof Map<?, ?> map) {
            map.values().forEach(each -> walk(name, each, outside));
        } else if (value instanceof Interval interval) {
            walk(name, Arrays.asList(interval.lower(), interval.upper()), outside);
        } else if (value instanceof Estimate estimate) {
            walk(name, Arrays.asList(estimate.estimate(), estimate.lower(), estimate.upper()), outside);
        } else if (value instanceof Record answer) {
            for (RecordComponent component : answer.getClass().getRecordComponents()) {
                walk(named(answer, component), of(answer, component), outside);
            }
        } else if (value instanceof Double number && !(number >= 0 && number <= 1) && !other(name)) {
            outside.put(name, number);
        }
    }

    private static String named(Record answer, RecordComponent component) {
        return answer.getClass().getName().replaceAll("^.*\\.", "").replace('$', '.') + "." + component.getName();
    }

    private static boolean other(String name) {
        return OTHER_HERE.contains(name) || OTHER.contains(name.replaceAll("^.*\\.", ""));
    }

    private static @Nullable Object of(Record answer, RecordComponent component) {
        try {
            component.getAccessor().setAccessible(true);
            return component.getAccessor().invoke(answer);
        } catch (ReflectiveOperationException closed) {
            throw new IllegalStateException(closed);
        }
    }
}
