package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST;
import static entrapment.registry.calculations.CountFields.confidence;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.PlanComparison;
import entrapment.registry.stats.PlanComparisonAnalysis;
import entrapment.registry.stats.PlanDetectableChangeAnalysis;
import entrapment.registry.stats.PlanPrecisionAnalysis;
import java.util.function.Supplier;

/** Bodies of plans, made before there are data. */
final class PlanningCalculations {

    private static final double CUSTOMARY_ALPHA = 0.05;
    private static final double CUSTOMARY_POWER = 0.8;
    private static final double LEAST_ALPHA = 1e-6;
    private static final double LARGEST_RATIO = 100;

    private PlanningCalculations() {}

    static Supplier<Record> comparison(Fields fields) {
        double p1 = fields.requiredProbability("p1");
        double p2 = fields.requiredProbability("p2");
        if (p1 == p2 && fields.sound("/p1") && fields.sound("/p2")) {
            fields.refuse("p2", "equal-proportions", "p2 must differ from p1");
        }
        double alpha = alpha(fields, "alpha", CUSTOMARY_ALPHA);
        double power = power(fields);
        double ratio = fields.real("ratio", 1 / LARGEST_RATIO, LARGEST_RATIO, 1);
        Long n1 = fields.whole("n1", 1, MOST);
        return () -> PlanComparisonAnalysis.of(new PlanComparison(p1, p2, alpha, power, ratio), n1);
    }

    static Supplier<Record> precision(Fields fields) {
        double anticipated = fields.requiredReal("anticipatedProportion", 0, 1);
        double halfWidth = fields.requiredReal("halfWidth", 1e-6, 0.499);
        Double zeroEventBound = fields.probability("zeroEventBound");
        Confidence confidence = confidence(fields);
        return () -> PlanPrecisionAnalysis.of(anticipated, halfWidth, zeroEventBound, confidence);
    }

    static Supplier<Record> detectableChange(Fields fields) {
        long volume = fields.requiredWhole("volume", 1, MOST);
        double p0 = fields.requiredProbability("p0");
        double alpha = alpha(fields, "alphaOneSided", CUSTOMARY_ALPHA / 2);
        double power = power(fields);
        return () -> PlanDetectableChangeAnalysis.of(volume, p0, alpha, power);
    }

    private static double alpha(Fields fields, String name, double customary) {
        return fields.real(name, LEAST_ALPHA, 0.5, customary);
    }

    private static double power(Fields fields) {
        return fields.real("power", 0.5, 0.9999, CUSTOMARY_POWER);
    }
}
