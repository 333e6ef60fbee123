package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Concordance against all pairs of single outcomes, calibration against its equations, and every edge. */
class DiscriminationExhaustiveTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;
    private static final Offset<Double> CLOSE = within(1e-9);

    @Test
    void concordanceAndItsErrorAreThoseOfAllPairs() {
        Random random = new Random(20310911);
        for (int repeat = 0; repeat < 300; repeat++) {
            List<PredictedRow> rows = random(random, 1 + random.nextInt(8));
            List<Double> events = new ArrayList<>();
            List<Double> nonEvents = new ArrayList<>();
            for (PredictedRow row : rows) {
                for (long k = 0; k < row.proportion().of(); k++) {
                    (k < row.proportion().events() ? events : nonEvents).add(row.predicted());
                }
            }
            DiscriminationAnalysis answer = DiscriminationAnalysis.of(rows, LEVEL);
            if (events.isEmpty() || nonEvents.isEmpty()) {
                assertThat(answer.cStatistic()).isNull();
                continue;
            }
            double c = mean(events, e -> share(e, nonEvents));
            assertThat(answer.cStatistic()).isEqualTo(c, CLOSE);
            if (events.size() < 2 || nonEvents.size() < 2) {
                assertThat(answer.delongStandardError()).isNull();
                assertThat(answer.ci()).isEqualTo(Interval.NOT_ESTIMABLE);
                continue;
            }
            double s10 = mean(events, e -> Math.pow(share(e, nonEvents) - c, 2)) / (events.size() - 1);
            double s01 = mean(nonEvents, f -> Math.pow(1 - share(f, events) - c, 2)) / (nonEvents.size() - 1);
            assertThat(answer.delongStandardError()).isEqualTo(Math.sqrt(s10 + s01), CLOSE);
            assertThat(answer.ci().lower()).isBetween(0.0, c + 1e-12);
            assertThat(answer.ci().upper()).isBetween(c - 1e-12, 1.0);
        }
    }

    @Test
    void calibrationSolvesItsEquations() {
        Random random = new Random(20310912);
        int solved = 0;
        for (int repeat = 0; repeat < 100; repeat++) {
            List<PredictedRow> rows = random(random, 12);
            DiscriminationAnalysis answer = DiscriminationAnalysis.of(rows, LEVEL);
            if (answer.calibrationSlope() == null || answer.calibrationInterceptAtSlope1() == null) {
                continue;
            }
            double atSlope1 = answer.calibrationInterceptAtSlope1();
            double free = Objects.requireNonNull(answer.calibrationInterceptFree());
            assertThat(excess(rows, atSlope1, 1, 0)).isCloseTo(0, CLOSE);
            assertThat(excess(rows, free, answer.calibrationSlope(), 0)).isCloseTo(0, CLOSE);
            assertThat(excess(rows, free, answer.calibrationSlope(), 1)).isCloseTo(0, within(1e-8));
            solved++;
        }
        assertThat(solved).isGreaterThan(80);
    }

    @Test
    void theOrderOfRowsAndSplittingARowDoNotMatter() {
        List<PredictedRow> rows = random(new Random(4), 9);
        List<PredictedRow> split = new ArrayList<>();
        for (PredictedRow row : rows) {
            for (long k = 0; k < row.proportion().of(); k++) {
                split.add(new PredictedRow(
                        row.predicted(), new Proportion(k < row.proportion().events() ? 1 : 0, 1)));
            }
        }
        Collections.shuffle(split, new Random(5));
        DiscriminationAnalysis one = DiscriminationAnalysis.of(rows, LEVEL);
        DiscriminationAnalysis other = DiscriminationAnalysis.of(split, LEVEL);

        assertThat(other.cStatistic()).isEqualTo(one.cStatistic(), CLOSE);
        assertThat(other.delongStandardError()).isEqualTo(one.delongStandardError(), CLOSE);
        assertThat(other.brier()).isEqualTo(one.brier(), CLOSE);
        assertThat(other.calibrationSlope()).isEqualTo(one.calibrationSlope(), CLOSE);
    }

    @Test
    void nothingButEventsOrNoneHasNoConcordance() {
        DiscriminationAnalysis none = DiscriminationAnalysis.of(List.of(row(0.2, 0, 5), row(0.3, 0, 4)), LEVEL);
        DiscriminationAnalysis all = DiscriminationAnalysis.of(List.of(row(0.2, 5, 5), row(0.3, 4, 4)), LEVEL);

        for (DiscriminationAnalysis answer : List.of(none, all)) {
            assertThat(answer.cStatistic()).isNull();
            assertThat(answer.calibrationSlope()).isNull();
            assertThat(answer.calibrationInterceptAtSlope1()).isNull();
        }
        assertThat(none.oOverE()).isZero();
        assertThat(none.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EVENT);
        assertThat(all.notes()).extracting(Note::code).containsExactly(NoteCode.NO_VARIATION);
    }

    @Test
    void noTrialsGiveNothing() {
        DiscriminationAnalysis answer = DiscriminationAnalysis.of(List.of(row(0.2, 0, 0)), LEVEL);

        assertThat(answer.brier()).isNull();
        assertThat(answer.oOverE()).isNull();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EXPOSURE);
    }

    @Test
    void onePredictionForAllIsATossAndHasNoSlope() {
        DiscriminationAnalysis answer = DiscriminationAnalysis.of(List.of(row(0.5, 1, 10), row(0.5, 3, 10)), LEVEL);

        assertThat(answer.cStatistic()).isEqualTo(0.5);
        assertThat(answer.delongStandardError()).isEqualTo(0.0);
        assertThat(answer.calibrationInterceptAtSlope1()).isEqualTo(Math.log(0.25), CLOSE);
        assertThat(answer.calibrationSlope()).isNull();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.NO_VARIATION);
        assertThat(DiscriminationAnalysis.of(List.of(row(0.1, 4, 20)), LEVEL).calibrationInterceptAtSlope1())
                .isEqualTo(Math.log(0.25) - Math.log(1 / 9.0), CLOSE);
    }

    @Test
    void aPredictionForNobodyIsNoPrediction() {
        DiscriminationAnalysis answer = DiscriminationAnalysis.of(List.of(row(0.1, 4, 20), row(0.3, 0, 0)), LEVEL);

        assertThat(answer).isEqualTo(DiscriminationAnalysis.of(List.of(row(0.1, 4, 20)), LEVEL));
    }

    @Test
    void perfectPredictionsHaveNoFiniteSlope() {
        DiscriminationAnalysis answer =
                DiscriminationAnalysis.of(List.of(row(0, 0, 9), row(0.4, 0, 9), row(1, 4, 4)), LEVEL);

        assertThat(answer.cStatistic()).isEqualTo(1.0);
        assertThat(answer.ci()).isEqualTo(new Interval(1.0, 1.0));
        assertThat(answer.calibrationSlope()).isNull();
        assertThat(answer.calibrationInterceptAtSlope1()).isNotNull().isNegative();
        assertThat(answer.notes()).extracting(Note::code).containsExactly(NoteCode.SEPARATION);
    }

    @Test
    void predictionsOfExactlyZeroThatCameTrueAreHeldForCalibrationAlone() {
        DiscriminationAnalysis answer =
                DiscriminationAnalysis.of(List.of(row(0, 2, 9), row(0.4, 3, 9), row(1, 3, 4)), LEVEL);

        assertThat(answer.calibrationSlope()).isNotNull().isBetween(0.0, 0.2);
        assertThat(answer.expected()).isCloseTo(7.6, CLOSE);
        assertThat(DiscriminationAnalysis.of(List.of(row(0, 2, 9)), LEVEL).oOverE())
                .isInfinite();
    }

    @Test
    void aMillionUsesInRareEventsAnswer() {
        DiscriminationAnalysis answer =
                DiscriminationAnalysis.of(List.of(row(1e-6, 10, 10_000_000), row(2e-6, 25, 10_000_000)), LEVEL);

        assertThat(answer.oOverE()).isEqualTo(35.0 / 30, CLOSE);
        assertThat(answer.calibrationSlope()).isEqualTo(Math.log(2.5) / Math.log(2), within(1e-5));
    }

    @Test
    void refusesWhatIsNoProbability() {
        for (double wrong : new double[] {-1e-9, 1 + 1e-9, Double.NaN}) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> row(wrong, 1, 2))
                    .withMessage("predicted must be in [0, 1], got " + wrong);
        }
    }

    private interface OfPrediction {
        double apply(double predicted);
    }

    private static double mean(List<Double> values, OfPrediction function) {
        return values.stream().mapToDouble(function::apply).sum() / values.size();
    }

    /** The share of others below, ties half. */
    private static double share(double value, List<Double> others) {
        return mean(others, other -> value > other ? 1 : value == other ? 0.5 : 0);
    }

    /** Σ(y−nμ)·logit(p)^power with logit μ = intercept+slope·logit(p). */
    private static double excess(List<PredictedRow> rows, double intercept, double slope, int power) {
        double sum = 0;
        for (PredictedRow row : rows) {
            double logit = Math.log(row.predicted() / (1 - row.predicted()));
            double mu = 1 / (1 + Math.exp(-intercept - slope * logit));
            sum += (row.proportion().events() - row.proportion().of() * mu) * Math.pow(logit, power);
        }
        return sum;
    }

    private static List<PredictedRow> random(Random random, int size) {
        List<PredictedRow> rows = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            double p = (1 + random.nextInt(9)) / 10.0;
            int of = 1 + random.nextInt(4);
            int events = 0;
            for (int k = 0; k < of; k++) {
                events += random.nextDouble() < p * 0.7 ? 1 : 0;
            }
            rows.add(row(p, events, of));
        }
        return rows;
    }

    private static PredictedRow row(double predicted, long events, long of) {
        return new PredictedRow(predicted, new Proportion(events, of));
    }
}
