package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class RateRatioEdgeTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;

    @Test
    void noEventInTheFirstGroupGivesZeroAndAnUpperLimit() {
        RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(0, 10), new Rate(3, 10), LEVEL);

        assertThat(answer.ratio()).isZero();
        assertThat(answer.exact().lower()).isZero();
        assertThat(answer.midP().lower()).isZero();
        // π_U = 1−(α/2)^(1/3), the closed form of an empty count.
        double share = 1 - Math.cbrt(0.025);
        assertThat(answer.exact().upper()).isCloseTo(share / (1 - share), within(1e-12));
        assertThat(answer.waldLog()).isEqualTo(Interval.NOT_ESTIMABLE);
        assertThat(codes(answer)).containsExactly(NoteCode.ZERO_CELL);
    }

    @Test
    void noEventInTheSecondGroupGivesInfinityAndALowerLimit() {
        RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(1, 10), new Rate(0, 10), LEVEL);

        assertThat(answer.ratio()).isInfinite();
        assertThat(answer.midP().upper()).isInfinite();
        assertThat(answer.exact().lower()).isCloseTo(0.025 / 0.975, within(1e-14));
        assertThat(answer.midP().lower()).isCloseTo(0.05 / 0.95, within(1e-14));
        assertThat(codes(answer)).containsExactly(NoteCode.ZERO_CELL);
    }

    @Test
    void noEventAtAllIsCompatibleWithAnyRatio() {
        RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(0, 10), new Rate(0, 10), LEVEL);

        assertThat(answer)
                .returns(null, RateRatioAnalysis::ratio)
                .returns(Interval.ANY_RATIO, RateRatioAnalysis::exact)
                .returns(Interval.ANY_RATIO, RateRatioAnalysis::midP)
                .returns(1.0, RateRatioAnalysis::minlikePValue)
                .returns(1.0, RateRatioAnalysis::centralPValue)
                .returns(1.0, RateRatioAnalysis::midPValue);
        assertThat(codes(answer)).containsExactly(NoteCode.NO_EVENT);
    }

    @Test
    void noExposureIsCompatibleWithAnyRatio() {
        for (List<Rate> pair : List.of(
                List.of(new Rate(0, 0), new Rate(2, 5)),
                List.of(new Rate(2, 5), new Rate(0, 0)),
                List.of(new Rate(3, 0), new Rate(2, 5)))) {
            RateRatioAnalysis answer = RateRatioAnalysis.of(pair.get(0), pair.get(1), LEVEL);

            assertThat(answer.ratio()).isNull();
            assertThat(answer.midP()).isEqualTo(Interval.ANY_RATIO);
            assertThat(answer.midPValue()).isEqualTo(1);
            assertThat(codes(answer)).containsExactly(NoteCode.NO_EXPOSURE);
        }
    }

    @Test
    void handfulsOfEventsInMillionsKeepTheirDigits() {
        RateRatioAnalysis small = RateRatioAnalysis.of(new Rate(2, 10), new Rate(5, 10), LEVEL);
        RateRatioAnalysis large = RateRatioAnalysis.of(new Rate(2, 1e7), new Rate(5, 1e7), LEVEL);

        assertThat(large).isEqualTo(small);
    }

    @Test
    void extremeExposuresStayFinite() {
        RateRatioAnalysis answer = RateRatioAnalysis.of(new Rate(3, 1e15), new Rate(2, 1e-9), LEVEL);

        assertThat(Objects.requireNonNull(answer.ratio())).isCloseTo(1.5e-24, within(1e-36));
        assertThat(answer.exact().lower()).isPositive().isLessThan(1.5e-24);
        assertThat(answer.midPValue()).isPositive().isLessThan(1e-40);
    }

    @Test
    void aMillionEventsAnswerAndTwoAreRefused() {
        assertThat(Objects.requireNonNull(RateRatioAnalysis.of(new Rate(999_999, 1), new Rate(1_000_000, 1), LEVEL)
                        .midP()
                        .lower()))
                .isCloseTo(Math.exp(Math.log(0.999999) - LEVEL.z() * Math.sqrt(2e-6)), within(1e-6));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> RateRatioAnalysis.of(new Rate(1_000_000, 1), new Rate(1_000_000, 1), LEVEL))
                .withMessageStartingWith("the events of both groups together must be below 2000000");
    }

    private static List<NoteCode> codes(RateRatioAnalysis answer) {
        return answer.notes().stream().map(Note::code).toList();
    }
}
