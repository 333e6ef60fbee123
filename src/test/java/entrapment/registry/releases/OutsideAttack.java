package entrapment.registry.releases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.linear.UnboundedSolutionException;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/**
 * Somebody outside who has kept every file that was ever sent out: reads the CSV and nothing else, and works out by the
 * simplex solver of Commons Math how small and how large anything can be. Knows of the registry only what the notes say.
 * Unknown to it are entrapments by device class, year and degree of harm, and uses without one by device class and year.
 */
public final class OutsideAttack {

    /** One row of a release's CSV. */
    public record Row(String measure, String deviceClass, String harm, int first, int last, String value) {

        public boolean hidden() {
            return value.equals("•");
        }

        private static Row of(String line) {
            String[] cells = line.split(",", -1);
            return new Row(
                    cells[0], cells[1], cells[2], Integer.parseInt(cells[3]), Integer.parseInt(cells[4]), cells[5]);
        }
    }

    /** Smallest and largest value. */
    public record Range(double least, double most) {

        public boolean guards(int threshold) {
            return most > threshold - 1e-6 && most - least > threshold - 1 - 1e-6;
        }
    }

    private record Unknown(String deviceClass, int year, String harm) {}

    private static final String SPARED = "spared";
    private static final double TINY = 1e-9;

    private final Set<Row> rows = new LinkedHashSet<>();
    private final Set<String> classes = new TreeSet<>();
    private final Set<String> harms = new TreeSet<>();
    private final Set<Integer> years = new TreeSet<>();
    private final Map<Unknown, Double> known = new LinkedHashMap<>();
    private final Map<Unknown, Integer> columns = new LinkedHashMap<>();
    private final List<double[]> echelon = new ArrayList<>();
    private final List<Integer> leads = new ArrayList<>();
    private double[] start = {};
    private List<LinearConstraint> constraints = List.of();

    public OutsideAttack(Collection<String> files) {
        for (String file : files) {
            file.lines()
                    .filter(line -> !line.startsWith("#") && !line.startsWith("measure,") && !line.isEmpty())
                    .forEach(line -> rows.add(Row.of(line)));
        }
        for (Row row : rows) {
            if (!row.deviceClass().equals("any")) {
                classes.add(row.deviceClass());
            }
            if (!row.harm().equals("any")) {
                harms.add(row.harm());
            }
            for (int year = row.first(); year <= row.last(); year++) {
                years.add(year);
            }
        }
        takeZeros();
        for (String deviceClass : classes) {
            for (int year : years) {
                harms.forEach(harm -> add(new Unknown(deviceClass, year, harm)));
                add(new Unknown(deviceClass, year, SPARED));
            }
        }
        rows.stream().filter(row -> !row.hidden()).forEach(this::eliminate);
        start = start();
        constraints = movements();
    }

    public List<Row> hidden() {
        return rows.stream().filter(Row::hidden).toList();
    }

    public List<Row> shown() {
        return rows.stream().filter(row -> !row.hidden()).toList();
    }

    /** A sum that is printed as 0 has nothing in it. */
    private void takeZeros() {
        rows.stream().filter(row -> row.value().equals("0")).forEach(row -> members(row)
                .forEach(unknown -> known.put(unknown, 0.0)));
    }

    private void add(Unknown unknown) {
        if (!known.containsKey(unknown)) {
            columns.put(unknown, columns.size());
        }
    }

    private List<Unknown> members(Row row) {
        List<Unknown> members = new ArrayList<>();
        for (String deviceClass : row.deviceClass().equals("any") ? classes : Set.of(row.deviceClass())) {
            for (int year = row.first(); year <= row.last(); year++) {
                for (String harm : row.harm().equals("any") ? harms : Set.of(row.harm())) {
                    if (!row.measure().equals(SPARED)) {
                        members.add(new Unknown(deviceClass, year, harm));
                    }
                }
                if (!row.measure().equals("events")) {
                    members.add(new Unknown(deviceClass, year, SPARED));
                }
            }
        }
        return members;
    }

    private double[] form(Row row) {
        double[] form = new double[columns.size()];
        for (Unknown unknown : members(row)) {
            Integer column = columns.get(unknown);
            if (column != null) {
                form[column] = 1;
            }
        }
        return form;
    }

    /** Gauss and Jordan: what follows from rows taken before is left out. The last column is the right side. */
    private void eliminate(Row row) {
        if (row.value().equals("0")) {
            return;
        }
        double[] rest = Arrays.copyOf(form(row), columns.size() + 1);
        rest[columns.size()] = Double.parseDouble(row.value());
        for (int index = 0; index < leads.size(); index++) {
            subtract(rest, echelon.get(index), leads.get(index));
        }
        int lead = 0;
        while (lead < columns.size() && Math.abs(rest[lead]) < TINY) {
            lead++;
        }
        if (lead == columns.size()) {
            assertThat(rest[lead]).as("what is printed agrees with itself").isCloseTo(0, within(TINY));
            return;
        }
        double divisor = rest[lead];
        for (int column = 0; column < rest.length; column++) {
            rest[column] /= divisor;
        }
        int found = lead;
        echelon.forEach(earlier -> subtract(earlier, rest, found));
        echelon.add(rest);
        leads.add(lead);
    }

    private static void subtract(double[] from, double[] by, int column) {
        double factor = from[column];
        for (int index = 0; factor != 0 && index < from.length; index++) {
            from[index] -= factor * by[index];
        }
    }

    /**
     * Any filling that agrees with all that is printed. With equations that tie the solver sometimes stops at a point that
     * breaks one, so a point is checked, and another form is tried where it does not hold.
     */
    private double[] start() {
        List<LinearConstraint> equations = new ArrayList<>();
        for (double[] row : echelon) {
            equations.add(
                    new LinearConstraint(Arrays.copyOf(row, columns.size()), Relationship.EQ, row[columns.size()]));
        }
        Random random = new Random(1);
        for (int attempt = 0; attempt < 200; attempt++) {
            double[] form = random.doubles(columns.size()).toArray();
            double[] point = new SimplexSolver()
                    .optimize(
                            new MaxIter(100_000),
                            new LinearObjectiveFunction(form, 0),
                            new LinearConstraintSet(equations),
                            GoalType.MINIMIZE,
                            new NonNegativeConstraint(true))
                    .getPoint();
            boolean agrees = equations.stream()
                    .allMatch(each -> Math.abs(each.getCoefficients().dotProduct(new ArrayRealVector(point, false))
                                    - each.getValue())
                            < 1e-6);
            if (agrees && Arrays.stream(point).allMatch(value -> value > -1e-6)) {
                return Arrays.stream(point).map(value -> Math.max(0, value)).toArray();
            }
        }
        throw new IllegalStateException("no filling found");
    }

    /**
     * How far the free unknowns can be moved from the start with every unknown at 0 or more. Right sides are not negative, so
     * the solver needs no artificial variables.
     */
    private List<LinearConstraint> movements() {
        List<LinearConstraint> movements = new ArrayList<>();
        for (int index = 0; index < leads.size(); index++) {
            double[] row = Arrays.copyOf(echelon.get(index), columns.size());
            int lead = leads.get(index);
            row[lead] = 0;
            movements.add(new LinearConstraint(free(row), Relationship.LEQ, start[lead]));
        }
        for (int column = 0; column < columns.size(); column++) {
            if (!leads.contains(column)) {
                double[] row = new double[columns.size()];
                row[column] = -1;
                movements.add(new LinearConstraint(free(row), Relationship.LEQ, start[column]));
            }
        }
        return movements;
    }

    /** The columns of the unknowns that are free; the others follow from them. */
    private double[] free(double[] row) {
        return IntStream.range(0, row.length)
                .filter(column -> !leads.contains(column))
                .mapToDouble(column -> row[column])
                .toArray();
    }

    /** How far anything can be moved, whether a row of the file or not. */
    public Range range(Row row) {
        double[] form = form(row);
        double now = 0;
        for (int column = 0; column < form.length; column++) {
            now += form[column] * start[column];
        }
        for (int index = 0; index < leads.size(); index++) {
            int lead = leads.get(index);
            if (form[lead] != 0) {
                double[] by = Arrays.copyOf(echelon.get(index), form.length);
                subtract(form, by, lead);
            }
        }
        double[] moved = free(form);
        if (Arrays.stream(moved).allMatch(each -> Math.abs(each) < TINY)) {
            return new Range(now, now);
        }
        return new Range(now + optimum(moved, GoalType.MINIMIZE), now + optimum(moved, GoalType.MAXIMIZE));
    }

    private double optimum(double[] form, GoalType goal) {
        try {
            return new SimplexSolver()
                    .optimize(
                            new MaxIter(100_000),
                            new LinearObjectiveFunction(form, 0),
                            new LinearConstraintSet(constraints),
                            goal,
                            new NonNegativeConstraint(false))
                    .getValue();
        } catch (UnboundedSolutionException unbounded) {
            return goal == GoalType.MAXIMIZE ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
        }
    }
}
