package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LogisticEdgeTests {

    private static final Confidence LEVEL = Confidence.DEFAULT;

    @Test
    void columnsAreNamedAfterTermsAndLevels() {
        DesignMatrix design =
                DesignMatrix.of(LogisticSamples.randomTerms(), LogisticSamples.random(new Random(1), 20, 3));

        assertThat(design.columnNames()).containsExactly("(Intercept)", "g[b]", "g[c]", "x", "y");
        assertThat(LogisticFirthAnalysis.of(design, LEVEL).coefficients().keySet())
                .containsExactlyElementsOf(design.columnNames());
    }

    @Test
    void aLevelWithoutTrialsIsDroppedWithANote() {
        DesignMatrix design =
                LogisticSamples.oneFactor(new Proportion(3, 9), new Proportion(0, 0), new Proportion(5, 9));

        assertThat(design.columnNames()).containsExactly("(Intercept)", "f[2]");
        assertThat(LogisticAnalysis.of(design, LEVEL).notes())
                .contains(new Note(NoteCode.EMPTY_LEVEL, "There are no trials at f[1], so it was dropped."));
        assertThat(LogisticAnalysis.of(design, LEVEL).terms().get(0).df()).isEqualTo(1);
    }

    @Test
    void aFactorLeftWithItsReferenceAloneHasNoTest() {
        DesignMatrix design = LogisticSamples.oneFactor(new Proportion(3, 9), new Proportion(0, 0));
        LogisticAnalysis answer = LogisticAnalysis.of(design, LEVEL);

        assertThat(answer.terms()).containsExactly(new LogisticAnalysis.TermTest("f", 0, null, null));
        assertThat(answer.lrPValue()).isNull();
        assertThat(LogisticSamples.of(answer.coefficients(), "(Intercept)").estimate())
                .isCloseTo(Math.log(0.5), within(1e-10));
        assertThat(LogisticFirthAnalysis.of(design, LEVEL).overallPlr())
                .isEqualTo(new LogisticFirthAnalysis.Overall(null, 0, null));
    }

    @Test
    void refusesAReferenceLevelWithoutTrials() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> LogisticSamples.oneFactor(new Proportion(0, 0), new Proportion(5, 9)))
                .withMessage("reference level f[0] must have trials; choose another reference");
    }

    @Test
    void refusesAnAliasedColumnByItsName() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            patterns.add(new CovariatePattern(
                    Map.of("f", i < 3 ? "no" : "yes"),
                    Map.of("x", (double) i, "twice", 2.0 * i + 7, "same", 2031.0, "group", i < 3 ? 1.5 : -4),
                    new Proportion(i % 2, 2)));
        }
        for (String aliased : List.of("twice", "same", "group")) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> DesignMatrix.of(
                            List.of(
                                    LogisticSamples.factor("f", "no", "yes"),
                                    new Term.Numeric("x"),
                                    new Term.Numeric(aliased)),
                            patterns))
                    .withMessage("column " + aliased
                            + " is aliased: it is a linear combination of the columns before it; leave its term out");
        }
    }

    @Test
    void refusesMorePatternsThanColumnsCanTellApart() {
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        DesignMatrix.of(List.of(new Term.Numeric("x")), List.of(LogisticSamples.at("x", 3, 1, 9))))
                .withMessageStartingWith("column x is aliased");
    }

    @Test
    void refusesWhatAPatternCannotBe() {
        Term.Factor f = LogisticSamples.factor("f", "no", "yes");
        CovariatePattern no = LogisticSamples.at(Map.of("f", "no"), 1, 2);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> DesignMatrix.of(List.of(f), List.of(LogisticSamples.at(Map.of("f", "no"), 0, 0))))
                .withMessage("patterns must hold at least one trial");
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        DesignMatrix.of(List.of(f), List.of(no, LogisticSamples.at(Map.of("f", "perhaps"), 1, 2))))
                .withMessage("f must be one of [no, yes], got perhaps");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> DesignMatrix.of(List.of(f), List.of(LogisticSamples.at(Map.of("g", "no"), 1, 2))))
                .withMessage("every pattern must have a level of f");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> DesignMatrix.of(List.of(new Term.Numeric("x")), List.of(no)))
                .withMessage("every pattern must have a number for x");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> DesignMatrix.of(List.of(f, f), List.of(no)))
                .withMessage("terms must have different names");
        for (double wrong : new double[] {Double.NaN, Double.POSITIVE_INFINITY, 1.1e9, -1.1e9}) {
            assertThatIllegalArgumentException()
                    .isThrownBy(() -> LogisticSamples.at("x", wrong, 1, 2))
                    .withMessage("x must be in [-1.0E9, 1.0E9], got " + wrong);
        }
    }

    @Test
    void refusesAFactorWithoutTwoLevelsOrWithoutItsReference() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Term.Factor("f", List.of("a"), "a"))
                .withMessage("number of levels of f must be in [2, 2147483647], got 1");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Term.Factor("f", List.of("a", "a"), "a"))
                .withMessage("levels of f must be different");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Term.Factor("f", List.of("a", "b"), "c"))
                .withMessage("reference of f must be one of its levels");
    }

    @Test
    void separationLeavesNoCoefficientButSaysWhereTheyGo() {
        LogisticAnalysis answer =
                LogisticAnalysis.of(LogisticSamples.oneFactor(new Proportion(15, 72), new Proportion(0, 16)), LEVEL);

        assertThat(answer.separation()).isEqualTo(Separation.QUASI_COMPLETE);
        assertThat(answer.directions())
                .containsEntry("(Intercept)", Direction.FINITE)
                .containsEntry("f[1]", Direction.MINUS_INFINITY);
        assertThat(answer.coefficients()).isEmpty();
        assertThat(answer.logLikelihood()).isNull();
        assertThat(answer.lrDf()).isEqualTo(1);
        assertThat(answer.residualDf()).isZero();
        assertThat(answer.terms()).isEmpty();
        assertThat(answer.notes()).extracting(Note::code).contains(NoteCode.SEPARATION);
    }

    @Test
    void noEventAndNothingButEventsSeparateByTheIntercept() {
        for (boolean all : new boolean[] {false, true}) {
            DesignMatrix design =
                    LogisticSamples.oneFactor(new Proportion(all ? 7 : 0, 7), new Proportion(all ? 9 : 0, 9));
            LogisticSeparationAnalysis answer = LogisticSeparationAnalysis.of(design);

            assertThat(answer.separation()).isEqualTo(Separation.COMPLETE);
            assertThat(answer.coefficients())
                    .containsEntry("(Intercept)", all ? Direction.PLUS_INFINITY : Direction.MINUS_INFINITY)
                    .containsEntry("f[1]", Direction.UNDETERMINED);
            assertThat(LogisticSamples.of(
                                    LogisticFirthAnalysis.of(design, LEVEL).coefficients(), "f[1]")
                            .profile()
                            .lower())
                    .isBetween(-10.0, 0.0);
        }
    }

    @Test
    void oneTrialAnswers() {
        DesignMatrix design = DesignMatrix.of(List.of(), List.of(LogisticSamples.at(Map.of(), 1, 1)));
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(design, LEVEL);

        assertThat(LogisticSamples.of(answer.coefficients(), "(Intercept)").estimate())
                .isCloseTo(Math.log(3), within(1e-10));
        assertThat(answer.eventsPerParameter()).isNull();
        assertThat(LogisticAnalysis.of(design, LEVEL).coefficients()).isEmpty();
    }

    @Test
    void tensOfMillionsOfUsesKeepTheirDigits() {
        long n = 10_000_000;
        for (long a : new long[] {0, 1, 5, n / 2, n - 1, n}) {
            LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(
                    LogisticSamples.oneFactor(new Proportion(5, n), new Proportion(a, n)), LEVEL);

            LogisticFirthAnalysis.Coefficient slope = LogisticSamples.of(answer.coefficients(), "f[1]");
            assertThat(slope.estimate())
                    .isCloseTo(Math.log((a + 0.5) / (n - a + 0.5)) - Math.log(5.5 / (n - 4.5)), within(1e-8));
            assertThat(slope.profile().lower()).isLessThan(slope.estimate());
            assertThat(slope.profile().upper()).isGreaterThan(slope.estimate());
        }
    }

    @Test
    void noPValueIsZeroHoweverSmall() {
        DesignMatrix design =
                LogisticSamples.oneFactor(new Proportion(10, 1_000_000), new Proportion(400_000, 1_000_000));
        StratifiedOddsRatioAnalysis stratified = StratifiedOddsRatioAnalysis.of(
                List.of(new Stratum("a", new Proportion(50_000, 100_000), new Proportion(10_000, 100_000))), LEVEL);

        assertThat(LogisticSamples.of(LogisticAnalysis.of(design, LEVEL).coefficients(), "(Intercept)")
                        .waldPValue())
                .isPositive();
        assertThat(LogisticAnalysis.of(design, LEVEL).lrPValue()).isPositive();
        assertThat(LogisticFirthAnalysis.of(design, LEVEL).overallPlr().pValue())
                .isPositive();
        assertThat(stratified.cmh().pValue()).isPositive();
    }

    @Test
    void aTenLevelFactorWithoutEventsInNineOfThemAnswers() {
        Proportion[] levels = new Proportion[10];
        for (int i = 0; i < 10; i++) {
            levels[i] = new Proportion(i == 0 ? 12 : 0, 300 + i);
        }
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(LogisticSamples.oneFactor(levels), LEVEL);

        assertThat(answer.separationOfMl()).isEqualTo(Separation.QUASI_COMPLETE);
        assertThat(answer.coefficients()).hasSize(10);
        answer.coefficients().forEach((column, coefficient) -> {
            assertThat(coefficient.profile().lower()).isBetween(-12.0, coefficient.estimate());
            assertThat(coefficient.profile().upper()).isBetween(coefficient.estimate(), 0.0);
        });
    }

    @Test
    void sixtyCentresOfWhichFortyHaveNoEventAnswer() {
        Random random = new Random(60);
        Proportion[] centres = new Proportion[60];
        for (int i = 0; i < 60; i++) {
            centres[i] = new Proportion(i < 20 ? 1 + random.nextInt(3) : 0, 50 + random.nextInt(200));
        }
        DesignMatrix design = LogisticSamples.oneFactor(centres);
        LogisticSeparationAnalysis separation = LogisticSeparationAnalysis.of(design);
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(design, LEVEL);

        assertThat(separation.coefficients().values())
                .filteredOn(direction -> direction == Direction.MINUS_INFINITY)
                .hasSize(40);
        assertThat(answer.notes()).extracting(Note::code).contains(NoteCode.LOW_EPV);
        answer.coefficients().forEach((column, coefficient) -> {
            assertThat(coefficient.profile().lower()).isBetween(-15.0, coefficient.estimate());
            assertThat(coefficient.profile().upper()).isBetween(coefficient.estimate(), 5.0);
        });
    }

    @Test
    void eventsPerParameterAreJudgedAtTwoFiveAndTen() {
        assertThat(notes(39, 2)).containsExactly(NoteCode.TOO_FEW_EVENTS);
        assertThat(notes(40, 2)).containsExactly(NoteCode.LOW_EPV);
        assertThat(notes(199, 2)).containsExactly(NoteCode.LOW_EPV);
        assertThat(notes(200, 2)).isEmpty();
        assertThat(notes(10, 1)).containsExactly(NoteCode.LOW_EPV);
    }

    @Test
    void aFitWithEventsEnoughHasNothingToNote() {
        DesignMatrix design = LogisticSamples.oneFactor(new Proportion(30, 90), new Proportion(40, 90));

        assertThat(LogisticFirthAnalysis.of(design, LEVEL).notes()).isEmpty();
        assertThat(LogisticAnalysis.of(design, LEVEL).notes()).isEmpty();
        assertThat(LogisticSeparationAnalysis.of(design).notes()).isEmpty();
    }

    @Test
    void onlyCoefficientsWithoutAFiniteEstimateAreNamed() {
        LogisticSeparationAnalysis answer = LogisticSeparationAnalysis.of(
                LogisticSamples.oneFactor(new Proportion(15, 72), new Proportion(0, 16), new Proportion(3, 20)));

        assertThat(answer.notes())
                .singleElement()
                .extracting(Note::text)
                .asString()
                .startsWith("Maximum likelihood has no finite estimate for f[1]: ");
        assertThat(answer.coefficients().values())
                .extracting(Direction::toString)
                .containsExactlyInAnyOrder("finite", "-Inf", "finite");
    }

    @Test
    void theRarerOfEventsAndNonEventsIsCountedPerParameter() {
        DesignMatrix mostly = LogisticSamples.oneFactor(new Proportion(45, 50), new Proportion(46, 50));

        assertThat(EventsPerParameter.of(mostly).value()).isEqualTo(9);
    }

    /** A model with twenty columns, in one factor or in two. */
    private static List<NoteCode> notes(int events, int terms) {
        List<String> names = new ArrayList<>();
        for (int i = 0; i <= 20; i++) {
            names.add("l" + i);
        }
        List<CovariatePattern> patterns = new ArrayList<>();
        int left = events;
        for (int i = 0; i <= 20; i++) {
            for (String g : List.of("no", "yes")) {
                int here = Math.min(left, 1 + events / 42);
                left -= here;
                patterns.add(LogisticSamples.at(Map.of("f", names.get(i), "g", g), here, 400));
            }
        }
        List<Term> list = terms == 1
                ? List.of(new Term.Factor("f", names, "l0"))
                : List.of(new Term.Factor("f", names.subList(0, 20), "l0"), LogisticSamples.factor("g", "no", "yes"));
        DesignMatrix design = DesignMatrix.of(list, terms == 1 ? patterns : moved(patterns));
        return EventsPerParameter.of(design).notes().stream().map(Note::code).toList();
    }

    /** The last level's patterns counted to the first level, so that events stay. */
    private static List<CovariatePattern> moved(List<CovariatePattern> patterns) {
        return patterns.stream()
                .map(pattern -> pattern.level("f").equals("l20")
                        ? new CovariatePattern(
                                Map.of("f", "l0", "g", pattern.level("g")), Map.of(), pattern.proportion())
                        : pattern)
                .toList();
    }

    @Test
    void aModelWithTooFewEventsGivesNoEstimates() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            patterns.add(new CovariatePattern(
                    Map.of("g", "abc".substring(i % 3, i % 3 + 1)),
                    Map.of("x", (double) (i % 4), "y", i * 0.3),
                    new Proportion(i < 3 ? 1 : 0, 30)));
        }
        DesignMatrix design = DesignMatrix.of(LogisticSamples.randomTerms(), patterns);
        LogisticFirthAnalysis firth = LogisticFirthAnalysis.of(design, LEVEL);
        LogisticAnalysis plain = LogisticAnalysis.of(design, LEVEL);

        assertThat(firth.coefficients()).isEmpty();
        assertThat(firth.penalisedLogLikelihood()).isNull();
        assertThat(firth.overallPlr()).isEqualTo(new LogisticFirthAnalysis.Overall(null, 4, null));
        assertThat(plain.coefficients()).isEmpty();
        assertThat(plain.notes()).extracting(Note::code).contains(NoteCode.TOO_FEW_EVENTS);
    }

    @Test
    void anOddsRatioTooLargeToBeWrittenIsMissingAndNotInfinite() {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            patterns.add(LogisticSamples.at("x", i * 1e-6, i % 3 == 0 || i > 30 ? 1 : 0, 2));
        }
        DesignMatrix design = DesignMatrix.of(List.of(new Term.Numeric("x")), patterns);
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(design, LEVEL);
        LogisticFirthAnalysis.Coefficient x = LogisticSamples.of(answer.coefficients(), "x");

        assertThat(x.estimate()).isGreaterThan(1e4);
        assertThat(x.oddsRatio()).isNull();
        assertThat(x.profileOddsRatio().upper()).isNull();
        assertThat(answer.notes()).contains(OddsRatios.NOTE);
        assertThat(LogisticAnalysis.of(design, LEVEL).notes()).contains(OddsRatios.NOTE);
    }

    @Test
    void findsThePenalisedLimitsOfTwoThousandPatternsAndTenParameters() {
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(large(new Random(2)), LEVEL);

        assertThat(answer.coefficients()).hasSize(10);
        assertThat(answer.coefficients().values()).allMatch(one -> one.profile().upper() != null);
    }

    private static DesignMatrix large(Random random) {
        List<Term> terms = new ArrayList<>();
        for (int j = 0; j < 9; j++) {
            terms.add(new Term.Numeric("x" + j));
        }
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 2000; i++) {
            Map<String, Double> numbers = new HashMap<>();
            for (int j = 0; j < 9; j++) {
                numbers.put("x" + j, j < 5 ? random.nextInt(2) : random.nextGaussian());
            }
            int of = 1 + random.nextInt(20);
            patterns.add(new CovariatePattern(Map.of(), numbers, new Proportion(random.nextInt(10) == 0 ? 1 : 0, of)));
        }
        return DesignMatrix.of(terms, patterns);
    }

    @Test
    void aFitThatDoesNotConvergeHasNoResult() {
        DesignMatrix separated = LogisticSamples.oneFactor(new Proportion(3, 9), new Proportion(0, 9));
        LogisticLikelihood likelihood = LogisticLikelihood.plain(separated);

        assertThat(new LogisticMaximum(likelihood, Subspace.all(2)).from(separated.start(), 5))
                .isEmpty();
    }

    @Test
    void farProfilesStayFinite() {
        LogisticFirthAnalysis answer = LogisticFirthAnalysis.of(
                LogisticSamples.oneFactor(new Proportion(1, 3), new Proportion(0, 1)), new Confidence(0.9999));
        Interval profile = LogisticSamples.of(answer.coefficients(), "f[1]").profile();

        assertThat(Objects.requireNonNull(profile.lower())).isBetween(-40.0, -10.0);
        assertThat(Objects.requireNonNull(profile.upper())).isBetween(3.0, 40.0);
    }
}
