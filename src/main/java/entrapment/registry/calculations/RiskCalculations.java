package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST;
import static entrapment.registry.calculations.CountFields.MOST_ROWS;
import static entrapment.registry.calculations.CountFields.confidence;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.AdjustedPValuesAnalysis;
import entrapment.registry.stats.AttemptPattern;
import entrapment.registry.stats.AttemptsAnalysis;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DifferenceAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.OddsRatioAnalysis;
import entrapment.registry.stats.OddsRatioLevelsAnalysis;
import entrapment.registry.stats.PairwiseDifferencesAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import entrapment.registry.stats.Rate;
import entrapment.registry.stats.RateAnalysis;
import entrapment.registry.stats.RateRatioAnalysis;
import entrapment.registry.stats.RelativeRiskAnalysis;
import entrapment.registry.stats.StratifiedOddsRatioAnalysis;
import entrapment.registry.stats.Stratum;
import entrapment.registry.stats.TwoByTwo;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Bodies about risks and rates, their ratios, and attempts. */
final class RiskCalculations {

    private static final double LARGEST_PER = 1e9;
    private static final double LEAST_EXPOSURE = 1e-9;
    private static final double MOST_EXPOSURE = 1e12;
    private static final int MOST_STRATA = 500;

    /** An exact analysis of each level may take a tenth of a second where events are counted in millions. */
    private static final int MOST_LEVELS = 100;

    /** 435 pairs, each with an exact analysis. */
    private static final int MOST_GROUPS = 30;

    private static final int MOST_ATTEMPTS = 1_000;

    private RiskCalculations() {}

    static Supplier<Record> proportion(Fields fields) {
        Proportion proportion = CountFields.proportion(fields);
        Confidence confidence = confidence(fields);
        return () -> ProportionAnalysis.of(proportion, confidence);
    }

    static Supplier<Record> rate(Fields fields) {
        Rate rate = rateOf(fields);
        double per = fields.real("per", 1e-12, LARGEST_PER, 1);
        Confidence confidence = confidence(fields);
        return () -> RateAnalysis.of(rate, per, confidence);
    }

    static Supplier<Record> rateRatio(Fields fields) {
        Rate a = fields.object("a", RiskCalculations::rateOf);
        Rate b = fields.object("b", RiskCalculations::rateOf);
        Confidence confidence = confidence(fields);
        return () -> RateRatioAnalysis.of(a, b, confidence);
    }

    static Supplier<Record> difference(Fields fields) {
        Proportion a = fields.object("a", CountFields::proportion);
        Proportion b = fields.object("b", CountFields::proportion);
        Confidence confidence = confidence(fields);
        return () -> DifferenceAnalysis.of(a, b, confidence);
    }

    static Supplier<Record> relativeRisk(Fields fields) {
        Proportion a = fields.object("a", CountFields::proportion);
        Proportion b = fields.object("b", CountFields::proportion);
        Confidence confidence = confidence(fields);
        return () -> RelativeRiskAnalysis.of(a, b, confidence);
    }

    static Supplier<Record> oddsRatio(Fields fields) {
        Proportion exposed = fields.object("exposed", CountFields::proportion);
        Proportion reference = fields.object("reference", CountFields::proportion);
        Confidence confidence = confidence(fields);
        return () -> OddsRatioAnalysis.of(TwoByTwo.of(exposed, reference), confidence);
    }

    static Supplier<Record> oddsRatioLevels(Fields fields) {
        List<Group> levels = CountFields.groups(fields, "levels", MOST_LEVELS);
        CountFields.requireAtLeast(fields, "levels", 2, levels);
        CountFields.refuseRepeated(fields, "levels", levels, Group::name);
        String reference = fields.text("reference");
        if (reference != null && levels.stream().noneMatch(level -> level.name().equals(reference))) {
            fields.refuse("reference", "not-a-level", "reference must be the name of one of the levels");
        }
        Confidence confidence = confidence(fields);
        return () -> OddsRatioLevelsAnalysis.of(levels, reference, confidence);
    }

    static Supplier<Record> stratifiedOddsRatio(Fields fields) {
        List<Stratum> strata = fields.requiredObjects(
                "strata",
                MOST_STRATA,
                stratum -> new Stratum(
                        stratum.requiredText("name"),
                        stratum.object("exposed", CountFields::proportion),
                        stratum.object("reference", CountFields::proportion)));
        CountFields.requireAtLeast(fields, "strata", 1, strata);
        CountFields.refuseRepeated(fields, "strata", strata, Stratum::name);
        Confidence confidence = confidence(fields);
        return () -> StratifiedOddsRatioAnalysis.of(strata, confidence);
    }

    /** One list of attempts a case, each 1 for success and 0 for failure, in order. */
    static Supplier<Record> attempts(Fields fields) {
        List<List<Boolean>> cases =
                fields.list("cases", MOST_ROWS, one -> one.list(MOST_ATTEMPTS, attempt -> attempt.whole(0, 1) == 1));
        for (int index = 0; index < cases.size(); index++) {
            if (cases.get(index).isEmpty() && fields.sound("/cases/" + index)) {
                fields.refuseAt("/cases/" + index, "too-few", "a case must have at least one attempt");
            }
        }
        Confidence confidence = confidence(fields);
        return () -> AttemptsAnalysis.of(cases.stream().map(AttemptPattern::new).toList(), confidence);
    }

    static Supplier<Record> adjustedPValues(Fields fields) {
        List<@Nullable Double> pValues =
                fields.list("pValues", MOST_ROWS, entry -> entry.isNull() ? null : Double.valueOf(entry.real(0, 1)));
        return () -> AdjustedPValuesAnalysis.of(pValues);
    }

    static Supplier<Record> pairwiseDifferences(Fields fields) {
        List<Group> groups = fields.requiredObjects(
                "groups",
                MOST_GROUPS,
                group -> new Group(group.requiredText("name"), CountFields.proportion(group, "successes", "of")));
        CountFields.requireAtLeast(fields, "groups", 2, groups);
        CountFields.refuseRepeated(fields, "groups", groups, Group::name);
        Confidence confidence = confidence(fields);
        return () -> PairwiseDifferencesAnalysis.of(groups, confidence);
    }

    /** Events of an exposure, which may be 0. */
    static Rate rateOf(Fields fields) {
        long events = fields.requiredWhole("events", 0, MOST);
        double exposure = fields.requiredReal("exposure", 0, MOST_EXPOSURE);
        if (exposure > 0 && exposure < LEAST_EXPOSURE) {
            fields.refuse("exposure", "out-of-range", "exposure must be 0 or at least " + LEAST_EXPOSURE);
            exposure = 0;
        }
        return new Rate(events, exposure);
    }
}
