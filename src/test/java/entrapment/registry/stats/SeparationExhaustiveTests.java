package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.PivotSelectionRule;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.junit.jupiter.api.Test;

/** Against the definition of Albert and Anderson as linear programmes (Konis 2007), solved by the simplex method. */
class SeparationExhaustiveTests {

    private static final double ZERO = 1e-7;

    @Test
    void everyOutcomeOfTwoCrossedFactors() {
        int checked = 0;
        long[][] outcomes = {{0, 2}, {1, 2}, {2, 2}, {0, 0}};
        for (int code = 0; code < 256; code++) {
            List<CovariatePattern> patterns = new ArrayList<>();
            List<double[]> rows = new ArrayList<>();
            for (int cell = 0; cell < 4; cell++) {
                long[] outcome = outcomes[(code >> (2 * cell)) & 3];
                patterns.add(LogisticSamples.at(
                        Map.of("f", cell % 2 == 0 ? "no" : "yes", "g", cell < 2 ? "no" : "yes"),
                        outcome[0],
                        outcome[1]));
                if (outcome[1] > 0) {
                    rows.add(new double[] {1, cell % 2, cell < 2 ? 0 : 1});
                }
            }
            DesignMatrix design;
            try {
                design = DesignMatrix.of(
                        List.of(LogisticSamples.factor("f", "no", "yes"), LogisticSamples.factor("g", "no", "yes")),
                        patterns);
            } catch (IllegalArgumentException e) {
                continue;
            }
            if (design.parameters() == 3) {
                assertSameAsProgrammes(design, rows);
                checked++;
            }
        }
        // Three outcomes in each of four cells, or in any three of them.
        assertThat(checked).isEqualTo(81 + 4 * 27);
    }

    @Test
    void everyOutcomeOfSixPointsOnALine() {
        double[] points = {-3, -1, 0, 0.5, 2, 2};
        for (int code = 0; code < 64; code++) {
            List<CovariatePattern> patterns = new ArrayList<>();
            List<double[]> rows = new ArrayList<>();
            for (int i = 0; i < points.length; i++) {
                patterns.add(LogisticSamples.at("x", points[i], (code >> i) & 1, 1));
                rows.add(new double[] {1, points[i]});
            }
            assertSameAsProgrammes(DesignMatrix.of(List.of(new Term.Numeric("x")), patterns), rows);
        }
    }

    @Test
    void randomSmallDesigns() {
        Random random = new Random(20310704);
        int separated = 0;
        for (int repeat = 0; repeat < 400; repeat++) {
            int size = 6 + random.nextInt(6);
            List<CovariatePattern> patterns = LogisticSamples.random(random, size, 1 + repeat % 3);
            DesignMatrix design = DesignMatrix.of(LogisticSamples.randomTerms(), patterns);
            List<double[]> rows = new ArrayList<>();
            for (CovariatePattern pattern : patterns) {
                rows.add(new double[] {
                    1,
                    pattern.level("g").equals("b") ? 1 : 0,
                    pattern.level("g").equals("c") ? 1 : 0,
                    pattern.number("x"),
                    pattern.number("y")
                });
            }
            assertSameAsProgrammes(design, rows);
            separated += LogisticSeparationAnalysis.of(design).separation() == Separation.NONE ? 0 : 1;
        }
        assertThat(separated).isBetween(100, 390);
    }

    private static void assertSameAsProgrammes(DesignMatrix design, List<double[]> rows) {
        int p = design.parameters();
        List<LinearConstraint> cone = new ArrayList<>();
        List<LinearConstraint> margin = new ArrayList<>();
        double[] sum = new double[p];
        boolean mixed = false;
        for (int i = 0; i < rows.size(); i++) {
            Proportion proportion = design.patterns().get(i).proportion();
            boolean none = proportion.events() == 0;
            boolean all = proportion.events() == proportion.of();
            double[] row = ThinQr.times(rows.get(i), none ? -1 : 1);
            cone.add(new LinearConstraint(row, none || all ? Relationship.GEQ : Relationship.EQ, 0));
            double[] withMargin = new double[p + 1];
            System.arraycopy(row, 0, withMargin, 0, p);
            withMargin[p] = -1;
            margin.add(new LinearConstraint(withMargin, Relationship.GEQ, 0));
            mixed |= !(none || all);
            if (none || all) {
                ThinQr.add(sum, 1, row);
            }
        }
        double[] marginGoal = new double[p + 1];
        marginGoal[p] = 1;
        Separation separation = optimum(sum, cone, p) < ZERO
                ? Separation.NONE
                : !mixed && optimum(marginGoal, margin, p) > ZERO ? Separation.COMPLETE : Separation.QUASI_COMPLETE;
        Map<String, Direction> directions = new LinkedHashMap<>();
        for (int j = 0; j < p; j++) {
            double[] goal = new double[p];
            goal[j] = 1;
            boolean up = optimum(goal, cone, p) > ZERO;
            goal[j] = -1;
            directions.put(design.columnNames().get(j), Direction.of(up, optimum(goal, cone, p) > ZERO));
        }

        LogisticSeparationAnalysis answer = LogisticSeparationAnalysis.of(design);

        assertThat(answer.separation()).isEqualTo(separation);
        assertThat(answer.coefficients()).containsExactlyEntriesOf(directions);
    }

    private static double optimum(double[] goal, List<LinearConstraint> constraints, int bounded) {
        List<LinearConstraint> all = new ArrayList<>(constraints);
        for (int j = 0; j < bounded; j++) {
            double[] unit = new double[goal.length];
            unit[j] = 1;
            all.add(new LinearConstraint(unit, Relationship.LEQ, 1));
            all.add(new LinearConstraint(unit, Relationship.GEQ, -1));
        }
        return new SimplexSolver()
                .optimize(
                        new MaxIter(10_000),
                        new LinearObjectiveFunction(goal, 0),
                        new LinearConstraintSet(all),
                        GoalType.MAXIMIZE,
                        new NonNegativeConstraint(false),
                        PivotSelectionRule.BLAND)
                .getValue();
    }
}
