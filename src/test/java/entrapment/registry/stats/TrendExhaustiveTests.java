package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Every table of three small groups against the listing of all tables with its margins, and the laws of a trend. */
class TrendExhaustiveTests {

    private static final double[] SCORES = {2029, 2030.5, 2033};
    private static final int[] SIZES = {3, 4, 2};

    @Test
    void exactPValuesCountTheTablesThatAreAsSteep() {
        for (int a = 0; a <= SIZES[0]; a++) {
            for (int b = 0; b <= SIZES[1]; b++) {
                for (int c = 0; c <= SIZES[2]; c++) {
                    int events = a + b + c;
                    if (events == 0 || events == 9) {
                        continue;
                    }
                    double[] tails = tails(a, b, c);
                    TrendAnalysis analysis = TrendAnalysis.of(groups(SCORES, a, b, c));

                    assertThat(analysis.exactUpperPValue()).isCloseTo(tails[0], within(1e-12));
                    assertThat(analysis.exactLowerPValue()).isCloseTo(tails[1], within(1e-12));
                    assertThat(analysis.exactDoubledPValue())
                            .isCloseTo(Math.min(1, 2 * Math.min(tails[0], tails[1])), within(1e-12));
                    assertThat(analysis.midPValue())
                            .isCloseTo(Math.min(1, 2 * Math.min(tails[0], tails[1]) - tails[2]), within(1e-12));
                }
            }
        }
    }

    /** P(T ≥ t), P(T ≤ t), P(T = t) by listing; scores doubled to be whole. */
    private static double[] tails(int a, int b, int c) {
        long t = 2 * 2029L * a + 4061L * b + 2 * 2033L * c;
        double[] sums = new double[4];
        for (int x = 0; x <= SIZES[0]; x++) {
            for (int y = 0; y <= SIZES[1]; y++) {
                int w = a + b + c - x - y;
                if (w < 0 || w > SIZES[2]) {
                    continue;
                }
                double tables = choose(SIZES[0], x) * choose(SIZES[1], y) * choose(SIZES[2], w);
                long score = 2 * 2029L * x + 4061L * y + 2 * 2033L * w;
                sums[0] += score >= t ? tables : 0;
                sums[1] += score <= t ? tables : 0;
                sums[2] += score == t ? tables : 0;
                sums[3] += tables;
            }
        }
        return new double[] {sums[0] / sums[3], sums[1] / sums[3], sums[2] / sums[3]};
    }

    @Test
    void zIsTheStandardisedCovarianceOfScoresAndEvents() {
        TrendAnalysis analysis = TrendAnalysis.of(groups(SCORES, 1, 2, 2));

        // The nine uses one by one.
        double[] s = {0, 0, 0, 1.5, 1.5, 1.5, 1.5, 4, 4};
        double[] y = {1, 0, 0, 1, 1, 0, 0, 1, 1};
        double mean = 14.0 / 9;
        double covariance = 0;
        double spread = 0;
        for (int i = 0; i < s.length; i++) {
            covariance += (s[i] - mean) * y[i];
            spread += (s[i] - mean) * (s[i] - mean);
        }
        assertThat(analysis.z()).isCloseTo(covariance / Math.sqrt(5.0 / 9 * (4.0 / 9) * spread), within(1e-12));
        assertThat(analysis.slope()).isCloseTo(covariance / spread, within(1e-12));
    }

    @Test
    void reversingTheScoresTurnsARiseIntoAFall() {
        TrendAnalysis up = TrendAnalysis.of(groups(SCORES, 0, 2, 2));
        TrendAnalysis down = TrendAnalysis.of(groups(new double[] {-2029, -2030.5, -2033}, 0, 2, 2));

        assertThat(down.z()).isCloseTo(-z(up), within(1e-12));
        assertThat(down.exactLowerPValue()).isCloseTo(upper(up), within(1e-12));
        assertThat(down.midPValue()).isCloseTo(midP(up), within(1e-12));
    }

    @Test
    void onlyTheSpacingOfScoresMatters() {
        TrendAnalysis one = TrendAnalysis.of(groups(SCORES, 1, 1, 2));
        TrendAnalysis other = TrendAnalysis.of(groups(new double[] {0, 0.3, 0.8}, 1, 1, 2));

        assertThat(other.z()).isCloseTo(z(one), within(1e-9));
        assertThat(other.midPValue()).isCloseTo(midP(one), within(1e-12));
        assertThat(other.slope()).isCloseTo(Objects.requireNonNull(one.slope()) * 5, within(1e-9));
    }

    @Test
    void rowOrderAndSplittingAGroupChangeNothing() {
        List<ScoredGroup> rows = new ArrayList<>(groups(SCORES, 1, 3, 2));
        TrendAnalysis whole = TrendAnalysis.of(rows);
        rows.set(1, new ScoredGroup(2030.5, new Proportion(1, 2)));
        rows.add(new ScoredGroup(2030.5, new Proportion(2, 2)));
        rows.add(new ScoredGroup(2040, new Proportion(0, 0)));
        Collections.reverse(rows);
        TrendAnalysis split = TrendAnalysis.of(rows);

        assertThat(split.z()).isCloseTo(z(whole), within(1e-12));
        assertThat(split.midPValue()).isCloseTo(midP(whole), within(1e-12));
    }

    @Test
    void swappingEventsAndNonEventsTurnsTheTrend() {
        TrendAnalysis events = TrendAnalysis.of(groups(SCORES, 0, 1, 2));
        TrendAnalysis others = TrendAnalysis.of(groups(SCORES, 3, 3, 0));

        assertThat(others.z()).isCloseTo(-z(events), within(1e-12));
        assertThat(others.exactLowerPValue()).isCloseTo(upper(events), within(1e-12));
    }

    private static List<ScoredGroup> groups(double[] scores, int... events) {
        List<ScoredGroup> groups = new ArrayList<>();
        for (int i = 0; i < scores.length; i++) {
            groups.add(new ScoredGroup(scores[i], new Proportion(events[i], SIZES[i])));
        }
        return groups;
    }

    private static double z(TrendAnalysis analysis) {
        return Objects.requireNonNull(analysis.z());
    }

    private static double upper(TrendAnalysis analysis) {
        return Objects.requireNonNull(analysis.exactUpperPValue());
    }

    private static double midP(TrendAnalysis analysis) {
        return Objects.requireNonNull(analysis.midPValue());
    }

    private static double choose(int n, int k) {
        double choose = 1;
        for (int i = 0; i < k; i++) {
            choose = choose * (n - i) / (i + 1);
        }
        return choose;
    }
}
