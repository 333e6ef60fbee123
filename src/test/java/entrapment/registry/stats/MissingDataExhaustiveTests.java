package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Every way in which a few unknown outcomes may have ended. */
class MissingDataExhaustiveTests {

    @Test
    void theBoundsAreTheEndsOfEveryPossibleCompletion() {
        for (int known = 0; known <= 8; known++) {
            for (int events = 0; events <= known; events++) {
                for (int missing = known == 0 ? 1 : 0; missing <= 6; missing++) {
                    MissingOutcomeBoundsAnalysis bounds =
                            MissingOutcomeBoundsAnalysis.of(new Proportion(events, known), missing, Confidence.DEFAULT);
                    double low = 1;
                    double high = 0;
                    for (int hidden = 0; hidden <= missing; hidden++) {
                        Proportion completed = new Proportion(events + hidden, known + missing);
                        Interval wilson = completed.interval(IntervalMethod.WILSON, Confidence.DEFAULT);
                        double estimate = Objects.requireNonNull(completed.estimate());
                        low = Math.min(low, estimate);
                        high = Math.max(high, estimate);
                        assertThat(Limits.lower(bounds.envelope())).isLessThanOrEqualTo(Limits.lower(wilson));
                        assertThat(Limits.upper(bounds.envelope())).isGreaterThanOrEqualTo(Limits.upper(wilson));
                    }

                    assertThat(bounds.lowestPossible()).isEqualTo(low);
                    assertThat(bounds.highestPossible()).isEqualTo(high);
                    assertThat(bounds.proportionMissing()).isEqualTo((double) missing / (known + missing));
                }
            }
        }
    }

    @Test
    void withoutUnknownOutcomesTheEnvelopeIsTheInterval() {
        MissingOutcomeBoundsAnalysis bounds =
                MissingOutcomeBoundsAnalysis.of(new Proportion(6, 940), 0, Confidence.DEFAULT);

        assertThat(bounds.envelope()).isEqualTo(bounds.completeCase().wilson());
        assertThat(bounds.notes()).isEmpty();
    }

    @Test
    void aFieldsShareIsAProportionOfAllRecords() {
        for (int missing = 0; missing <= 20; missing++) {
            MissingnessAnalysis analysis = MissingnessAnalysis.of(
                    20, List.of(new MissingnessAnalysis.Missing("vessel", missing)), 20 - missing, Confidence.DEFAULT);
            Proportion share = new Proportion(missing, 20);

            assertThat(analysis.fields().get(0).proportion()).isEqualTo(share.estimate());
            assertThat(analysis.fields().get(0).wilson())
                    .isEqualTo(share.interval(IntervalMethod.WILSON, Confidence.DEFAULT));
            assertThat(analysis.completeProportion()).isEqualTo(new Proportion(20 - missing, 20).estimate());
        }
    }
}
