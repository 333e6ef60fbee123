package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.apache.commons.math3.distribution.TDistribution;
import org.junit.jupiter.api.Test;

/** Every three cases with up to three attempts each, stopping at success or not. */
class AttemptsExhaustiveTests {

    private static final double Z = Confidence.DEFAULT.z();

    @Test
    void attemptsAreCountedByCaseByNumberAndAfterFailure() {
        forAll(cases -> {
            AttemptsAnalysis analysis = AttemptsAnalysis.of(patterns(cases), Confidence.DEFAULT);
            int solved = 0;
            int atOnce = 0;
            int after = 0;
            int rescued = 0;
            int[] attempted = new int[4];
            int[] succeeded = new int[4];
            for (List<Boolean> one : cases) {
                boolean failed = false;
                solved += one.stream().anyMatch(success -> success) ? 1 : 0;
                atOnce += one.get(0) ? 1 : 0;
                for (int j = 0; j < one.size(); j++) {
                    attempted[j]++;
                    succeeded[j] += one.get(j) ? 1 : 0;
                    after += failed ? 1 : 0;
                    rescued += failed && one.get(j) ? 1 : 0;
                    failed |= !one.get(j);
                }
            }

            assertThat(analysis.cases()).isEqualTo(3);
            assertThat(analysis.perCase().successes()).isEqualTo(solved);
            assertThat(analysis.perCase().estimate()).isEqualTo(solved / 3.0);
            assertThat(analysis.firstAttempt().successes()).isEqualTo(atOnce);
            assertThat(analysis.afterFailure().attempts()).isEqualTo(after);
            assertThat(analysis.afterFailure().successes()).isEqualTo(rescued);
            for (AttemptsAnalysis.AttemptNumber number : analysis.byAttemptNumber()) {
                assertThat(number.attempted()).isEqualTo(attempted[number.attempt() - 1]);
                assertThat(number.successes()).isEqualTo(succeeded[number.attempt() - 1]);
            }
            assertThat(attempted[analysis.byAttemptNumber().size()]).isZero();
        });
    }

    @Test
    void theIntervalPerAttemptUsesTheVarianceBetweenCases() {
        double t = new TDistribution(2, 1e-14).inverseCumulativeProbability(0.975);
        forAll(cases -> {
            double attempts = 0;
            double successes = 0;
            for (List<Boolean> one : cases) {
                attempts += one.size();
                successes += successes(one);
            }
            double p = successes / attempts;
            double squares = 0;
            for (List<Boolean> one : cases) {
                squares += Math.pow(successes(one) - p * one.size(), 2);
            }
            double variance = 3.0 / 2 * squares / (attempts * attempts);
            ClusteredProportion perAttempt =
                    AttemptsAnalysis.of(patterns(cases), Confidence.DEFAULT).perAttempt();

            if (squares < 1e-20) {
                assertThat(perAttempt.clusterStandardError()).isZero();
                assertThat(perAttempt.designEffect()).isNull();
                assertThat(perAttempt.clusterT()).isEqualTo(Interval.NOT_ESTIMABLE);
                assertThat(perAttempt.effectiveWilson()).isEqualTo(perAttempt.naiveWilson());
                assertThat(perAttempt.notes()).extracting(Note::code).contains(NoteCode.NO_VARIATION);
            } else {
                double deff = variance / (p * (1 - p) / attempts);
                double n = attempts / Math.max(1, deff);
                assertThat(perAttempt.clusterStandardError()).isCloseTo(Math.sqrt(variance), within(1e-14));
                assertThat(perAttempt.designEffect()).isCloseTo(deff, within(1e-13));
                assertThat(perAttempt.effectiveN()).isCloseTo(n, within(1e-12));
                assertThat(lower(perAttempt.clusterT()))
                        .isCloseTo(Math.max(0, p - t * Math.sqrt(variance)), within(1e-11));
                assertThat(upper(perAttempt.clusterT()))
                        .isCloseTo(Math.min(1, p + t * Math.sqrt(variance)), within(1e-11));
                double centre = (p * n + Z * Z / 2) / (n + Z * Z);
                double half = Z / (n + Z * Z) * Math.sqrt(n * p * (1 - p) + Z * Z / 4);
                assertThat(lower(perAttempt.effectiveWilson())).isCloseTo(centre - half, within(1e-13));
                assertThat(upper(perAttempt.effectiveWilson())).isCloseTo(centre + half, within(1e-13));
            }
        });
    }

    @Test
    void equalCasesMayBeCountedTogether() {
        forAll(cases -> {
            List<AttemptPattern> doubled = new ArrayList<>(patterns(cases));
            doubled.addAll(patterns(cases));
            List<AttemptPattern> grouped =
                    cases.stream().map(one -> new AttemptPattern(one, 2)).toList();

            assertThat(AttemptsAnalysis.of(grouped, Confidence.DEFAULT))
                    .isEqualTo(AttemptsAnalysis.of(doubled, Confidence.DEFAULT));
        });
    }

    private static double successes(List<Boolean> one) {
        return one.stream().filter(success -> success).count();
    }

    private static List<AttemptPattern> patterns(List<List<Boolean>> cases) {
        return cases.stream().map(AttemptPattern::new).toList();
    }

    private static void forAll(Consumer<List<List<Boolean>>> claim) {
        List<List<Boolean>> courses = courses();
        for (List<Boolean> first : courses) {
            for (List<Boolean> second : courses) {
                for (List<Boolean> third : courses) {
                    claim.accept(List.of(first, second, third));
                }
            }
        }
    }

    /** All fourteen courses of one to three attempts. */
    private static List<List<Boolean>> courses() {
        List<List<Boolean>> courses = new ArrayList<>();
        for (int length = 1; length <= 3; length++) {
            for (int bits = 0; bits < 1 << length; bits++) {
                List<Boolean> course = new ArrayList<>();
                for (int j = 0; j < length; j++) {
                    course.add((bits >> j & 1) == 1);
                }
                courses.add(course);
            }
        }
        return courses;
    }
}
