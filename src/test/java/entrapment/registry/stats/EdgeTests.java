package entrapment.registry.stats;

import static entrapment.registry.stats.Limits.lower;
import static entrapment.registry.stats.Limits.upper;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Both sides of every boundary, and the words of every refusal. */
class EdgeTests {

    private static final long LARGEST = 2_147_483_647L;

    @Nested
    class OfConfidence {

        @ParameterizedTest
        @ValueSource(doubles = {0.5, 0.9999})
        void acceptsItsBounds(double level) {
            assertThat(new Confidence(level).level()).isEqualTo(level);
        }

        @ParameterizedTest
        @ValueSource(doubles = {0.4999, 0.99991, 0, 1, 95, -0.95, Double.NaN, Double.POSITIVE_INFINITY})
        void refusesAnythingElse(double level) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Confidence(level))
                    .withMessage("confidence must be in [0.5, 0.9999], got " + level);
        }

        /** R 4.2.2: qnorm(0.975), qnorm(0.95), qnorm(0.999). */
        @Test
        void knowsItsNormalDeviateToTheLastDigits() {
            assertThat(new Confidence(0.95).z()).isCloseTo(1.959963984540054, within(1e-15));
            assertThat(new Confidence(0.9).z()).isCloseTo(1.644853626951472, within(1e-15));
            assertThat(new Confidence(0.998).z()).isCloseTo(3.090232306167813, within(3e-15));
        }
    }

    @Nested
    class OfCounts {

        @Test
        void refusesMoreEventsThanUses() {
            assertThat(new Proportion(2, 2).events()).isEqualTo(2);
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Proportion(3, 2))
                    .withMessage("events must be in [0, 2], got 3");
        }

        @Test
        void refusesNegativeCounts() {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Proportion(-1, 2))
                    .withMessage("events must be in [0, 2], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Proportion(0, -1))
                    .withMessage("of must be in [0, 2147483647], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(-1, 1, 1, 1))
                    .withMessage("a must be in [0, 2147483647], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(1, -1, 1, 1))
                    .withMessage("b must be in [0, 2147483647], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(1, 1, -1, 1))
                    .withMessage("c must be in [0, 2147483647], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(1, 1, 1, -1))
                    .withMessage("d must be in [0, 2147483647], got -1");
        }

        @Test
        void refusesCountsBeyondTheLargest() {
            assertThat(new Proportion(0, LARGEST).of()).isEqualTo(LARGEST);
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Proportion(0, LARGEST + 1))
                    .withMessage("of must be in [0, 2147483647], got 2147483648");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(1, LARGEST, 0, 1))
                    .withMessage("a + b must be in [0, 2147483647], got 2147483648");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new TwoByTwo(0, 1, LARGEST, LARGEST))
                    .withMessageStartingWith("c + d must be in");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Rate(LARGEST + 1, 1))
                    .withMessageStartingWith("events must be in");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Rate(Long.MIN_VALUE, 1))
                    .withMessageStartingWith("events must be in");
        }

        @Test
        void refusesALimitThatIsNotANumber() {
            assertThatIllegalArgumentException().isThrownBy(() -> new Interval(Double.NaN, 1.0));
            assertThatIllegalArgumentException().isThrownBy(() -> new Interval(null, Double.NaN));
            assertThatIllegalArgumentException().isThrownBy(() -> new Interval(2.0, 1.0));
            assertThat(new Interval(1.0, 1.0).lower()).isEqualTo(1);
        }
    }

    @Nested
    class OfAProportion {

        @ParameterizedTest
        @EnumSource(IntervalMethod.class)
        void isExactlyZeroAndOneAtTheEnds(IntervalMethod method) {
            for (long n : new long[] {1, 2, 17, 1_000_000, LARGEST}) {
                Interval none = new Proportion(0, n).interval(method, Confidence.DEFAULT);
                Interval all = new Proportion(n, n).interval(method, Confidence.DEFAULT);

                assertThat(none.lower()).isZero();
                assertThat(upper(none)).isBetween(1.0 / n / 2, 1 - 1e-3);
                assertThat(all.upper()).isEqualTo(1);
                assertThat(lower(all)).isBetween(1e-3, 1 - 1.0 / n / 2);
            }
        }

        @Test
        void saysWhyNothingCanBeSaidOfNoUse() {
            ProportionAnalysis analysis = ProportionAnalysis.of(new Proportion(0, 0), Confidence.DEFAULT);

            assertThat(analysis.estimate()).isNull();
            assertThat(analysis.wilson()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(analysis.zeroEventUpperOneSided()).isNull();
            assertThat(analysis.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EXPOSURE);
        }

        /** Hanley JA, Lippman-Hand A, JAMA 1983;249:1743: no event in n, upper bound about 3/n. */
        @Test
        void boundsTheFrequencyOfWhatNeverHappened() {
            ProportionAnalysis none = ProportionAnalysis.of(new Proportion(0, 640), Confidence.DEFAULT);

            assertThat(none.zeroEventUpperOneSided()).isCloseTo(0.0046698, within(1e-6));
            assertThat(none.ruleOfThree()).isCloseTo(3.0 / 640, within(1e-5));
            assertThat(ProportionAnalysis.of(new Proportion(0, 2), Confidence.DEFAULT)
                            .ruleOfThree())
                    .isEqualTo(1);
            assertThat(ProportionAnalysis.of(new Proportion(0, 3), Confidence.DEFAULT)
                            .ruleOfThree())
                    .isCloseTo(0.99857742452, within(1e-11));
            assertThat(none.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EVENT);
            ProportionAnalysis one = ProportionAnalysis.of(new Proportion(1, 640), Confidence.DEFAULT);
            assertThat(one.zeroEventUpperOneSided()).isNull();
            assertThat(one.ruleOfThree()).isNull();
            assertThat(one.notes()).isEmpty();
            assertThat(ProportionAnalysis.of(new Proportion(640, 640), Confidence.DEFAULT)
                            .notes())
                    .extracting(Note::code)
                    .containsExactly(NoteCode.BOUNDARY);
        }

        /** The lower limit of one event is 1−(1−α/2)^(1/n) in closed form; the library's own quantile misses it. */
        @ParameterizedTest
        @ValueSource(longs = {2, 29, 20_000_000, LARGEST})
        void keepsItsDigitsForOneEventInMillions(long n) {
            Interval limits = new Proportion(1, n).interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT);
            double expected = -Math.expm1(Math.log1p(-0.025) / n);

            assertThat(lower(limits) / expected).isCloseTo(1, within(1e-12));
            Interval mirrored = new Proportion(n - 1, n).interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT);
            assertThat(upper(mirrored)).isCloseTo(1 - expected, within(1e-15));
        }

        /** In millions of uses the binomial limits are the Poisson ones; R 4.2.2 gives 1.211e-8 for two events. */
        @Test
        void agreesWithThePoissonLawForTwoEventsInTwentyMillion() {
            Interval limits =
                    new Proportion(2, 20_000_000).interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT);
            Interval poisson = new Rate(2, 20_000_000).garwood(Confidence.DEFAULT);

            assertThat(lower(limits)).isCloseTo(1.211e-8, within(5e-12));
            assertThat(lower(limits) / lower(poisson)).isCloseTo(1, within(1e-6));
            assertThat(upper(limits) / upper(poisson)).isCloseTo(1, within(1e-6));
        }

        /** Wilson's limits multiply to x²/(n(n+z²)) and add up to (2x+z²)/(n+z²). */
        @Test
        void keepsTheDigitsOfWilsonsLowerLimitToo() {
            double n = LARGEST;
            double z2 = Math.pow(Confidence.DEFAULT.z(), 2);
            Interval limits = new Proportion(1, LARGEST).interval(IntervalMethod.WILSON, Confidence.DEFAULT);

            assertThat(lower(limits) * upper(limits) * n * (n + z2)).isCloseTo(1, within(1e-14));
            assertThat((lower(limits) + upper(limits)) * (n + z2)).isCloseTo(2 + z2, within(1e-14));
        }
    }

    @Nested
    class OfARate {

        @Test
        void isNotEstimableWithoutExposure() {
            RateAnalysis nothing = RateAnalysis.of(new Rate(0, 0), 1000, Confidence.DEFAULT);
            RateAnalysis contradiction = RateAnalysis.of(new Rate(3, 0), 1000, Confidence.DEFAULT);

            assertThat(nothing.rate()).isNull();
            assertThat(nothing.garwood()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(nothing.byar()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(contradiction.rate()).isNull();
            assertThat(contradiction.notes())
                    .singleElement()
                    .extracting(Note::text)
                    .asString()
                    .contains("contradict");
        }

        @Test
        void isNotedToBeWithoutAnEventOnlyIfItIs() {
            assertThat(RateAnalysis.of(new Rate(0, 9), 1, Confidence.DEFAULT).notes())
                    .extracting(Note::code)
                    .containsExactly(NoteCode.NO_EVENT);
            assertThat(RateAnalysis.of(new Rate(1, 9), 1, Confidence.DEFAULT).notes())
                    .isEmpty();
        }

        @Test
        void doesNotCubeANegativeBracket() {
            assertThat(new Rate(1, 1).byar(new Confidence(0.998)).lower()).isZero();
            assertThat(lower(new Rate(1, 1).byar(Confidence.DEFAULT))).isPositive();
            assertThat(new Rate(0, 1).byar(Confidence.DEFAULT).lower()).isZero();
        }

        @ParameterizedTest
        @ValueSource(doubles = {-1, 1e-10, 1.1e15, Double.NaN, Double.POSITIVE_INFINITY})
        void refusesAnExposureThatCannotBe(double exposure) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Rate(1, exposure))
                    .withMessage("exposure must be 0 or in [1.0E-9, 1.0E15], got " + exposure);
        }

        @ParameterizedTest
        @ValueSource(doubles = {0, -1, 1.1e9, Double.NaN})
        void refusesAScaleThatCannotBe(double per) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> RateAnalysis.of(new Rate(1, 1), per, Confidence.DEFAULT))
                    .withMessage("per must be in (0, 1.0E9], got " + per);
        }

        @Test
        void copesWithTheLargestCountAndTheSmallestExposure() {
            Interval limits = new Rate(LARGEST, 1e-9).garwood(Confidence.DEFAULT);

            assertThat(lower(limits)).isCloseTo(1e9 * (LARGEST - 1.96 * Math.sqrt(LARGEST)), within(1e12));
            assertThat(upper(limits)).isFinite();
        }
    }

    @Nested
    class OfTwoGroups {

        @Test
        void haveNoDifferenceIfOneIsEmpty() {
            DifferenceAnalysis analysis =
                    DifferenceAnalysis.of(new Proportion(1, 4), new Proportion(0, 0), Confidence.DEFAULT);

            assertThat(analysis.difference()).isNull();
            assertThat(analysis.newcombe()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(analysis.per1000()).isEqualTo(new Estimate(null, null, null));
            assertThat(analysis.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EXPOSURE);
        }

        @Test
        void areNotedToBeWithoutAnEventOnlyIfBothAre() {
            for (long[] counts : new long[][] {{0, 3}, {3, 0}, {3, 3}, {0, 0}}) {
                DifferenceAnalysis analysis = DifferenceAnalysis.of(
                        new Proportion(counts[0], 9), new Proportion(counts[1], 9), Confidence.DEFAULT);

                assertThat(analysis.notes().isEmpty()).isEqualTo(counts[0] + counts[1] > 0);
            }
        }

        @Test
        void differByAtMostOne() {
            DifferenceAnalysis analysis =
                    DifferenceAnalysis.of(new Proportion(5, 5), new Proportion(0, 5), Confidence.DEFAULT);

            assertThat(analysis.difference()).isEqualTo(1);
            assertThat(analysis.newcombe().upper()).isEqualTo(1);
            assertThat(analysis.newcombeContinuity().upper()).isEqualTo(1);
        }

        @Test
        void haveARatioOfZeroOrInfinityWhereOneHasNoEvent() {
            RelativeRiskAnalysis zero =
                    RelativeRiskAnalysis.of(new Proportion(0, 10), new Proportion(3, 10), Confidence.DEFAULT);
            RelativeRiskAnalysis infinite =
                    RelativeRiskAnalysis.of(new Proportion(3, 10), new Proportion(0, 10), Confidence.DEFAULT);

            assertThat(zero.relativeRisk()).isZero();
            assertThat(zero.koopman().lower()).isZero();
            assertThat(upper(zero.koopman())).isFinite();
            assertThat(zero.katz()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(infinite.relativeRisk()).isInfinite();
            assertThat(infinite.koopman().upper()).isInfinite();
            assertThat(infinite.katz()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(infinite.notes()).extracting(Note::code).containsExactly(NoteCode.ZERO_CELL);
        }

        @Test
        void haveAnyRatioWhereNothingHappenedOrNobodyIs() {
            Proportion none = new Proportion(0, 10);
            Proportion empty = new Proportion(0, 0);
            RelativeRiskAnalysis nothing = RelativeRiskAnalysis.of(none, none, Confidence.DEFAULT);
            RelativeRiskAnalysis nobody = RelativeRiskAnalysis.of(new Proportion(3, 10), empty, Confidence.DEFAULT);

            assertThat(nothing.relativeRisk()).isNull();
            assertThat(nothing.koopman()).isEqualTo(Interval.ANY_RATIO);
            assertThat(nothing.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EVENT);
            assertThat(nobody.relativeRisk()).isNull();
            assertThat(nobody.koopman()).isEqualTo(Interval.ANY_RATIO);
            assertThat(nobody.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EXPOSURE);
        }

        /** The limits are n₁/(n₁+z²) and (n₂+z²)/n₂ here. */
        @Test
        void haveFiniteScoreLimitsWhereEverybodyHadTheEvent() {
            RelativeRiskAnalysis analysis =
                    RelativeRiskAnalysis.of(new Proportion(5, 5), new Proportion(9, 9), Confidence.DEFAULT);
            double z2 = Math.pow(Confidence.DEFAULT.z(), 2);

            assertThat(analysis.relativeRisk()).isEqualTo(1);
            assertThat(lower(analysis.koopman())).isCloseTo(5 / (5 + z2), within(1e-12));
            assertThat(upper(analysis.koopman())).isCloseTo((9 + z2) / 9, within(1e-12));
            assertThat(analysis.katz()).isEqualTo(Interval.NOT_ESTIMABLE);
            assertThat(analysis.notes()).extracting(Note::code).containsExactly(NoteCode.BOUNDARY);
        }
    }

    @Nested
    class OfATable {

        @Test
        void isNotEstimableWithAnEmptyMargin() {
            for (TwoByTwo table : List.of(
                    new TwoByTwo(0, 0, 1, 2),
                    new TwoByTwo(1, 2, 0, 0),
                    new TwoByTwo(0, 3, 0, 2),
                    new TwoByTwo(3, 0, 2, 0),
                    new TwoByTwo(0, 0, 0, 0))) {
                OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);

                assertThat(analysis.estimable()).isFalse();
                assertThat(analysis.oddsRatio()).isNull();
                assertThat(analysis.conditionalMle()).isNull();
                assertThat(analysis.woolf()).isEqualTo(new Woolf(null, null, null, null, false));
                assertThat(table.woolf(Confidence.DEFAULT)).isEqualTo(analysis.woolf());
                assertThat(table.haldaneAnscombe(Confidence.DEFAULT)).isEqualTo(analysis.woolf());
                assertThat(analysis.exact()).isEqualTo(Interval.ANY_RATIO);
                assertThat(analysis.midP()).isEqualTo(Interval.ANY_RATIO);
                assertThat(analysis.fisherPValue()).isEqualTo(1);
                assertThat(analysis.midPValue()).isEqualTo(1);
                assertThat(analysis.notes()).extracting(Note::code).containsExactly(NoteCode.EMPTY_MARGIN);
            }
        }

        @Test
        void addsHalvesToWoolfsLineOnlyAndOnlyForAZero() {
            OddsRatioAnalysis zero = OddsRatioAnalysis.of(new TwoByTwo(4, 38, 0, 71), Confidence.DEFAULT);
            OddsRatioAnalysis none = OddsRatioAnalysis.of(new TwoByTwo(1, 41, 1, 70), Confidence.DEFAULT);

            assertThat(zero.oddsRatio()).isInfinite();
            assertThat(zero.conditionalMle()).isInfinite();
            assertThat(zero.midP().upper()).isInfinite();
            assertThat(lower(zero.midP())).isCloseTo(1.6, within(0.05));
            assertThat(zero.woolf().haldaneAnscombeApplied()).isTrue();
            assertThat(zero.woolf().oddsRatio()).isCloseTo(4.5 * 71.5 / (38.5 * 0.5), within(1e-12));
            assertThat(zero.notes())
                    .singleElement()
                    .extracting(Note::text)
                    .asString()
                    .contains("infinite");
            assertThat(none.woolf().haldaneAnscombeApplied()).isFalse();
            assertThat(none.notes()).isEmpty();
        }

        @Test
        void isZeroWhereTheDiagonalHoldsAZero() {
            for (TwoByTwo table : List.of(new TwoByTwo(0, 5, 4, 6), new TwoByTwo(5, 5, 4, 0))) {
                OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);

                assertThat(analysis.oddsRatio()).isZero();
                assertThat(analysis.conditionalMle()).isZero();
                assertThat(analysis.exact().lower()).isZero();
                assertThat(upper(analysis.exact())).isFinite();
                assertThat(analysis.notes())
                        .singleElement()
                        .extracting(Note::text)
                        .asString()
                        .contains("is 0 and");
            }
        }

        /** With few events in millions, the split of the events is binomial: then π/(1−π) is the odds ratio's limit. */
        @Test
        void agreesWithTheBinomialSplitOfRareEventsInTensOfMillions() {
            TwoByTwo table = new TwoByTwo(200, 9_999_800, 150, 9_999_850);

            Interval exact = OddsRatioAnalysis.of(table, Confidence.DEFAULT).exact();
            Interval split = new Proportion(200, 350).interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT);

            assertThat(lower(exact)).isCloseTo(lower(split) / (1 - lower(split)), within(1e-3));
            assertThat(upper(exact)).isCloseTo(upper(split) / (1 - upper(split)), within(1e-3));
        }

        @Test
        void isAnalysedExactlyUpToTwoMillionInItsSmallestMargin() {
            OddsRatioAnalysis large =
                    OddsRatioAnalysis.of(new TwoByTwo(1_000_000, 999_999, 1_000_000, 1_000_000), Confidence.DEFAULT);

            assertThat(large.exact().lower()).isCloseTo(large.woolf().lower(), within(1e-5));
            assertThat(large.exact().upper()).isCloseTo(large.woolf().upper(), within(1e-5));
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> OddsRatioAnalysis.of(
                            new TwoByTwo(1_000_000, 1_000_000, 1_000_000, 1_000_000), Confidence.DEFAULT))
                    .withMessage(
                            "the smallest margin of a table must be below 2000000 for an exact analysis, got 2000000");
        }

        @Test
        void neverCallsAnythingImpossible() {
            OddsRatioAnalysis extreme = OddsRatioAnalysis.of(new TwoByTwo(1000, 10, 10, 1000), Confidence.DEFAULT);

            assertThat(extreme.fisherPValue()).isEqualTo(Double.MIN_NORMAL);
            assertThat(extreme.midPValue()).isEqualTo(Double.MIN_NORMAL);
        }
    }

    @Nested
    class OfLevels {

        private final Group many = new Group("none", new Proportion(2, 400));
        private final Group some = new Group("mild", new Proportion(3, 300));
        private final Group nobody = new Group("severe", new Proportion(0, 0));

        @Test
        void listsALevelWithNobodyButDoesNotTestIt() {
            OddsRatioLevelsAnalysis analysis =
                    OddsRatioLevelsAnalysis.of(List.of(many, some, nobody), "none", Confidence.DEFAULT);

            assertThat(analysis.levels())
                    .extracting(OddsRatioLevelsAnalysis.Level::name)
                    .containsExactly("mild", "severe");
            assertThat(analysis.levels().get(1).estimable()).isFalse();
            assertThat(analysis.levels().get(1).midP()).isEqualTo(Interval.ANY_RATIO);
            assertThat(analysis.overall().df()).isEqualTo(1);
            assertThat(analysis.notes()).extracting(Note::text).anyMatch(text -> text.startsWith("severe: "));
        }

        @Test
        void takesTheLargestLevelAsReferenceIfNoneIsNamed() {
            assertThat(OddsRatioLevelsAnalysis.of(List.of(nobody, some, many), null, Confidence.DEFAULT)
                            .reference())
                    .isEqualTo("none");
            assertThat(OddsRatioLevelsAnalysis.of(
                                    List.of(many, new Group("later", new Proportion(7, 400))), null, Confidence.DEFAULT)
                            .reference())
                    .isEqualTo("none");
        }

        @Test
        void marksTheOverallTestWhereExpectedCountsAreSmall() {
            OverallTest small = OverallTest.of(List.of(new Proportion(2, 400), new Proportion(3, 300)));
            OverallTest enough = OverallTest.of(List.of(new Proportion(10, 400), new Proportion(10, 400)));
            OverallTest tiny = OverallTest.of(List.of(
                    new Proportion(50, 100), new Proportion(50, 100), new Proportion(50, 100), new Proportion(1, 1)));

            assertThat(small.approximate()).isTrue();
            assertThat(enough.approximate()).isFalse();
            assertThat(enough.pearsonChi2()).isZero();
            assertThat(enough.pearsonPValue()).isEqualTo(1);
            assertThat(enough.lrPValue()).isEqualTo(1);
            assertThat(tiny.minExpected()).isLessThan(1);
            assertThat(tiny.approximate()).isTrue();
            assertThat(small.notes()).extracting(Note::code).containsExactly(NoteCode.APPROXIMATE);
            assertThat(enough.notes()).isEmpty();
        }

        /** Expected events at a rate of 1 in 10: 10 of 100, 4 of 40, 1 of 10. */
        @Test
        void allowsAFifthOfTheExpectedCountsBelowFiveAndNoneBelowOne() {
            Proportion hundred = new Proportion(10, 100);
            Proportion forty = new Proportion(4, 40);
            Proportion ten = new Proportion(1, 10);

            assertThat(OverallTest.of(List.of(new Proportion(5, 100), new Proportion(5, 100)))
                            .approximate())
                    .isFalse();
            assertThat(OverallTest.of(List.of(hundred, hundred, hundred, hundred, forty))
                            .approximate())
                    .isFalse();
            assertThat(OverallTest.of(List.of(hundred, hundred, hundred, forty, forty))
                            .approximate())
                    .isFalse();
            assertThat(OverallTest.of(List.of(hundred, hundred, forty, forty, forty))
                            .approximate())
                    .isTrue();
            assertThat(OverallTest.of(List.of(hundred, hundred, hundred, hundred, ten))
                            .approximate())
                    .isFalse();
        }

        @Test
        void hasNoOverallTestWithoutTwoLevelsOrWithoutEventsOrWithNothingElse() {
            for (List<Proportion> groups : List.of(
                    List.of(new Proportion(1, 5), new Proportion(0, 0)),
                    List.of(new Proportion(0, 5), new Proportion(0, 3)),
                    List.of(new Proportion(5, 5), new Proportion(3, 3)))) {
                OverallTest test = OverallTest.of(groups);

                assertThat(test.pearsonPValue()).isNull();
                assertThat(test.lrPValue()).isNull();
                assertThat(test.notes()).extracting(Note::code).containsExactly(NoteCode.EMPTY_MARGIN);
            }
        }

        @Test
        void refusesOneLevelEqualNamesAndAnUnknownReference() {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> OddsRatioLevelsAnalysis.of(List.of(many), "none", Confidence.DEFAULT))
                    .withMessage("number of levels must be in [2, 2147483647], got 1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> OddsRatioLevelsAnalysis.of(List.of(many, many), "none", Confidence.DEFAULT))
                    .withMessage("levels must have different names");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> OddsRatioLevelsAnalysis.of(List.of(many, some), "other", Confidence.DEFAULT))
                    .withMessage("reference must be the name of a level");
        }
    }

    @Nested
    class OfAttempts {

        @Test
        void saysNothingOfNoCase() {
            AttemptsAnalysis analysis = AttemptsAnalysis.of(List.of(), Confidence.DEFAULT);

            assertThat(analysis.cases()).isZero();
            assertThat(analysis.perAttempt().estimate()).isNull();
            assertThat(analysis.perAttempt().effectiveN()).isNull();
            assertThat(analysis.perCase().estimate()).isNull();
            assertThat(analysis.byAttemptNumber()).isEmpty();
            assertThat(analysis.meanAttemptsPerCase()).isNull();
            assertThat(analysis.notes()).extracting(Note::code).containsExactly(NoteCode.NO_EXPOSURE);
        }

        @Test
        void hasNoStandardErrorFromOneCase() {
            ClusteredProportion one = ClusteredProportion.of(List.of(new Cluster(3, 1, 1)), Confidence.DEFAULT);

            assertThat(one.clusterStandardError()).isNull();
            assertThat(one.designEffect()).isNull();
            assertThat(one.effectiveN()).isEqualTo(3);
            assertThat(one.notes()).extracting(Note::code).containsExactly(NoteCode.NO_VARIATION, NoteCode.FEW_CASES);
        }

        @Test
        void seesNoVariationInWholeNumbersWhereDoublesWouldSeeSome() {
            ClusteredProportion alike = ClusteredProportion.of(
                    List.of(new Cluster(3, 1, 1_000_000), new Cluster(999_999, 333_333, 100)), Confidence.DEFAULT);

            assertThat(alike.clusterStandardError()).isZero();
            assertThat(alike.designEffect()).isNull();
        }

        @Test
        void warnsBelowTenCases() {
            assertThat(ClusteredProportion.of(List.of(new Cluster(2, 1, 5), new Cluster(1, 1, 4)), Confidence.DEFAULT)
                            .notes())
                    .extracting(Note::code)
                    .contains(NoteCode.FEW_CASES);
            assertThat(ClusteredProportion.of(List.of(new Cluster(2, 1, 5), new Cluster(1, 1, 5)), Confidence.DEFAULT)
                            .notes())
                    .extracting(Note::code)
                    .doesNotContain(NoteCode.FEW_CASES);
        }

        /** Twelve cases, all solved, half at the first attempt and half at the second: more alike than chance makes them. */
        @Test
        void doesNotNarrowTheIntervalWhereStoppingMakesCasesAlike() {
            ClusteredProportion alike =
                    ClusteredProportion.of(List.of(new Cluster(1, 1, 6), new Cluster(2, 1, 6)), Confidence.DEFAULT);
            ClusteredProportion apart =
                    ClusteredProportion.of(List.of(new Cluster(3, 3, 6), new Cluster(3, 0, 6)), Confidence.DEFAULT);

            assertThat(alike.designEffect()).isLessThan(1);
            assertThat(alike.effectiveN()).isEqualTo(18);
            assertThat(alike.effectiveWilson()).isEqualTo(alike.naiveWilson());
            assertThat(alike.notes()).extracting(Note::code).containsExactly(NoteCode.BOUNDARY);
            assertThat(apart.designEffect()).isGreaterThan(1);
            assertThat(apart.notes()).isEmpty();
        }

        @Test
        void copesWithMillionsOfCases() {
            ClusteredProportion many = ClusteredProportion.of(
                    List.of(new Cluster(1, 1, 1_000_000_000), new Cluster(1, 0, 1_000_000_000)), Confidence.DEFAULT);

            assertThat(many.estimate()).isEqualTo(0.5);
            assertThat(many.designEffect()).isCloseTo(1, within(1e-8));
            assertThat(many.clusterStandardError()).isCloseTo(0.5 / Math.sqrt(2e9), within(1e-13));
        }

        @Test
        void refusesImpossibleCounts() {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new AttemptPattern(List.of()))
                    .withMessage("a case must have at least one attempt");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new AttemptPattern(List.of(true), -1))
                    .withMessage("cases must be in [0, 2147483647], got -1");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Cluster(2, 3, 1))
                    .withMessage("successes must be in [0, 2], got 3");
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> new Cluster(0, 0, 1))
                    .withMessage("attempts must be in [1, 1000000], got 0");
            assertThatIllegalArgumentException()
                    .isThrownBy(
                            () -> ClusteredProportion.of(List.of(new Cluster(2, 1, 2_000_000_000)), Confidence.DEFAULT))
                    .withMessage("attempts must be in [0, 2147483647], got 4000000000");
        }
    }

    @Nested
    class OfRows {

        @Test
        void findsTheFirstReasonThatApplies() {
            DiscordanceAnalysis analysis = DiscordanceAnalysis.of(Arrays.asList(
                    new DiscordanceAnalysis.Row("", null, null),
                    new DiscordanceAnalysis.Row("", -1L, null),
                    new DiscordanceAnalysis.Row("", null, -1L),
                    new DiscordanceAnalysis.Row("", -1L, -2L),
                    new DiscordanceAnalysis.Row("", 1L, -2L),
                    new DiscordanceAnalysis.Row("", 1L, 0L),
                    new DiscordanceAnalysis.Row("", 0L, 0L),
                    new DiscordanceAnalysis.Row("", 0L, 1L),
                    new DiscordanceAnalysis.Row("", 1L, 1L)));

            assertThat(analysis.rows())
                    .extracting(row -> row.status().toString())
                    .containsExactly(
                            "both missing",
                            "denominator missing",
                            "numerator missing",
                            "negative",
                            "negative",
                            "numerator exceeds denominator",
                            "no exposure",
                            "ok",
                            "ok");
            assertThat(analysis.usableEvents()).isEqualTo(1);
            assertThat(analysis.usableDenominator()).isEqualTo(2);
            assertThat(analysis.leftOut()).isEqualTo(7);
            assertThat(analysis.notes())
                    .singleElement()
                    .extracting(Note::text)
                    .asString()
                    .startsWith("7 of 9 rows left out");
        }

        @Test
        void hasNothingToNoteIfAllRowsHold() {
            assertThat(DiscordanceAnalysis.of(List.of(new DiscordanceAnalysis.Row("q1", 1L, LARGEST)))
                            .notes())
                    .isEmpty();
        }

        @Test
        void refusesCountsBeyondTheLargest() {
            assertThatIllegalArgumentException()
                    .isThrownBy(
                            () -> DiscordanceAnalysis.of(List.of(new DiscordanceAnalysis.Row("q1", 1L, LARGEST + 1))))
                    .withMessageStartingWith("of must be in");
        }
    }

    @Nested
    class OfMethods {

        @ParameterizedTest
        @EnumSource(Calculation.class)
        void quotesEachCalculation(Calculation calculation) {
            assertThat(calculation.method().code()).isEqualTo(calculation.code());
            assertThat(calculation.method().name()).isNotBlank();
            assertThat(calculation.method().citation()).isNotBlank();
        }

        @Test
        void quotesEachInterval() {
            assertThat(IntervalMethod.values())
                    .extracting(IntervalMethod::code)
                    .containsExactly("wilson", "wilson-continuity", "clopper-pearson", "jeffreys");
            assertThat(IntervalMethod.WILSON.method().citation()).contains("1927");
        }
    }
}
