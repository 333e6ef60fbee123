package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST_FITTED;
import static entrapment.registry.calculations.CountFields.MOST_ROWS;
import static entrapment.registry.calculations.CountFields.confidence;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DirectStandardisationAnalysis;
import entrapment.registry.stats.Effect;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.FunnelOverdispersionAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.IndirectStandardisationAnalysis;
import entrapment.registry.stats.PooledEffectsAnalysis;
import entrapment.registry.stats.PooledProportionAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ShrinkageAnalysis;
import entrapment.registry.stats.WeightedStratum;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/** Bodies about centres: funnels, standardisation, shrinkage, pooling. */
final class CentreCalculations {

    private static final double CUSTOMARY_WINSOR = 0.1;
    private static final double LARGEST_WEIGHT = 1e12;
    private static final double LARGEST_ESTIMATE = 1e6;
    private static final double LARGEST_VARIANCE = 1e12;

    private record Effects(List<Double> y, List<Double> v) {}

    private CentreCalculations() {}

    /** The target, if given, comes from outside; without it the funnel stands about the pooled rate. */
    static Supplier<Record> funnel(Fields fields) {
        List<Group> centres = CountFields.groups(fields, "centres", MOST_ROWS);
        Double target = fields.probability("target");
        return () -> target == null ? FunnelAnalysis.of(centres) : FunnelAnalysis.of(centres, target);
    }

    static Supplier<Record> funnelOverdispersion(Fields fields) {
        List<Group> centres = CountFields.groups(fields, "centres", MOST_ROWS);
        double winsor = fields.real("winsor", 0, 0.49, CUSTOMARY_WINSOR);
        return () -> FunnelOverdispersionAnalysis.of(centres, winsor);
    }

    static Supplier<Record> indirectStandardisation(Fields fields) {
        List<Proportion> reference = CountFields.proportions(fields, "reference");
        List<Proportion> centre = CountFields.proportions(fields, "centre");
        if (centre.size() != reference.size() && fields.sound("/centre") && fields.sound("/reference")) {
            fields.refuse("centre", "wrong-length", "centre must have as many strata as reference");
        }
        Confidence confidence = confidence(fields);
        return () -> IndirectStandardisationAnalysis.of(reference, centre, confidence);
    }

    static Supplier<Record> directStandardisation(Fields fields) {
        List<WeightedStratum> strata = fields.requiredObjects(
                "strata",
                MOST_ROWS,
                stratum -> new WeightedStratum(
                        CountFields.proportion(stratum), stratum.requiredReal("weight", 0, LARGEST_WEIGHT)));
        if (strata.stream().allMatch(stratum -> stratum.weight() == 0) && fields.sound("/strata")) {
            fields.refuse("strata", "no-weight", "one of strata at least must have a weight above 0");
        }
        Confidence confidence = confidence(fields);
        return () -> DirectStandardisationAnalysis.of(strata, confidence);
    }

    static Supplier<Record> shrinkage(Fields fields) {
        List<Group> centres = CountFields.groups(fields, "centres", MOST_FITTED);
        Confidence confidence = confidence(fields);
        return () -> ShrinkageAnalysis.of(centres, confidence);
    }

    static Supplier<Record> pooledProportion(Fields fields) {
        List<Group> centres = CountFields.groups(fields, "centres", MOST_FITTED);
        Confidence confidence = confidence(fields);
        return () -> PooledProportionAnalysis.of(centres, confidence);
    }

    /** Centres with counts, or effects y with their variances v. */
    static Supplier<Record> pooledEffects(Fields fields) {
        Confidence confidence = confidence(fields);
        if (fields.has("centres") == fields.has("effects")) {
            fields.refuseAt("", "one-of", "the body must have either centres or effects");
        }
        if (fields.has("centres")) {
            List<Group> centres = CountFields.groups(fields, "centres", MOST_ROWS);
            return () -> PooledEffectsAnalysis.ofCentres(centres, confidence);
        }
        Effects effects = fields.object("effects", CentreCalculations::effects);
        return () -> PooledEffectsAnalysis.of(
                IntStream.range(0, effects.y().size())
                        .mapToObj(
                                i -> new Effect(effects.y().get(i), effects.v().get(i)))
                        .toList(),
                confidence);
    }

    private static Effects effects(Fields fields) {
        List<Double> y = fields.list("y", MOST_ROWS, entry -> entry.real(-LARGEST_ESTIMATE, LARGEST_ESTIMATE));
        List<Double> v = fields.list("v", MOST_ROWS, entry -> entry.real(1 / LARGEST_VARIANCE, LARGEST_VARIANCE));
        if (y.size() != v.size() && fields.sound("/y") && fields.sound("/v")) {
            fields.refuse("v", "wrong-length", "v must have as many entries as y");
        }
        return new Effects(y, v);
    }
}
