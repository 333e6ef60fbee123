package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * The columns of a logistic model and the counts they are to explain: the one input of the logistic analyses.
 *
 * <p>Columns are {@code (Intercept)}, {@code name} for a numeric term, and {@code name[level]} for each level of a factor
 * but the reference, 1 where the pattern has that level and 0 elsewhere.
 *
 * <p>Inside, the columns X are held as Q·R with orthogonal Q of mean square 1, and a model as θ = Rβ: then neither the
 * unit nor the origin of a numeric term, nor how rare a level is, touches the digits of a fit.
 */
public final class DesignMatrix {

    private static final String INTERCEPT = "(Intercept)";

    /** R's own tolerance: a column with less than this share of its length left by the ones before is aliased. */
    private static final double ALIASED = 1e-7;

    /** 16 MB a copy, and two columns of the million rows of a discrimination. */
    private static final long MOST_CELLS = 2_000_000;

    private final List<Term> terms;
    private final List<Column> columns;
    private final List<CovariatePattern> patterns;
    private final List<Note> notes;
    private final ThinQr qr;
    private final double scale;

    private record Column(String name, @Nullable Term term, ToDoubleFunction<CovariatePattern> value) {}

    private DesignMatrix(
            List<Term> terms, List<Column> columns, List<CovariatePattern> patterns, List<Note> notes, ThinQr qr) {
        this.terms = terms;
        this.columns = columns;
        this.patterns = patterns;
        this.notes = notes;
        this.qr = qr;
        this.scale = FastMath.sqrt(patterns.size());
    }

    /**
     * The design of these terms over these patterns.
     *
     * <p>Edges: a pattern without trials is ignored; a level without trials has no column, note {@code EMPTY_LEVEL}.
     *
     * <p><b>Same as</b> R {@code model.matrix} with treatment contrasts, but for the names of columns. <b>Not the same
     * as</b> {@code glm} where a column is aliased: R leaves it out, here it is refused.
     *
     * @param terms none or more, with different names
     * @param patterns one or more, at least one of them with trials; patterns times columns at most 2,000,000
     * @throws IllegalArgumentException if a name occurs twice, a pattern lacks a term or has a level the factor does not
     *     know, the whole or a reference level has no trials, the design is too large, or a column is a linear
     *     combination of the ones before it (the message names it)
     */
    public static DesignMatrix of(List<Term> terms, List<CovariatePattern> patterns) {
        List<CovariatePattern> used = patterns.stream()
                .filter(pattern -> pattern.proportion().of() > 0)
                .toList();
        if (used.isEmpty()) {
            throw new IllegalArgumentException("patterns must hold at least one trial");
        }
        List<Note> notes = new ArrayList<>();
        List<Column> columns = columns(terms, used, notes);
        Counts.require("patterns times columns", (long) used.size() * columns.size(), 1, MOST_CELLS);
        ThinQr qr = ThinQr.twice(columns.stream()
                .map(column -> used.stream().mapToDouble(column.value()).toArray())
                .toArray(double[][]::new));
        for (int j = 0; j < columns.size(); j++) {
            refuseAliased(columns.get(j), j, qr);
        }
        return new DesignMatrix(List.copyOf(terms), columns, used, List.copyOf(notes), qr);
    }

    private static List<Column> columns(List<Term> terms, List<CovariatePattern> used, List<Note> notes) {
        List<Column> columns = new ArrayList<>(List.of(new Column(INTERCEPT, null, pattern -> 1)));
        for (Term term : terms) {
            if (term instanceof Term.Factor factor) {
                for (String level : levels(factor, used, notes)) {
                    columns.add(new Column(
                            columnOf(factor, level),
                            term,
                            pattern -> level.equals(pattern.level(factor.name())) ? 1 : 0));
                }
            } else {
                columns.add(new Column(term.name(), term, pattern -> pattern.number(term.name())));
            }
        }
        Counts.requireDifferent("terms", terms.stream().map(Term::name));
        Counts.requireDifferent("terms", columns.stream().map(Column::name));
        return List.copyOf(columns);
    }

    private static String columnOf(Term.Factor factor, String level) {
        return factor.name() + "[" + level + "]";
    }

    /** The levels that get a column. */
    private static List<String> levels(Term.Factor factor, List<CovariatePattern> used, List<Note> notes) {
        Set<String> present = new HashSet<>();
        for (CovariatePattern pattern : used) {
            String level = pattern.level(factor.name());
            if (!factor.levels().contains(level)) {
                throw new IllegalArgumentException(
                        factor.name() + " must be one of " + factor.levels() + ", got " + level);
            }
            present.add(level);
        }
        if (!present.contains(factor.reference())) {
            throw new IllegalArgumentException("reference level " + columnOf(factor, factor.reference())
                    + " must have trials; choose another reference");
        }
        List<String> kept = new ArrayList<>();
        for (String level : factor.levels()) {
            if (!present.contains(level)) {
                notes.add(new Note(
                        NoteCode.EMPTY_LEVEL,
                        "There are no trials at " + columnOf(factor, level) + ", so it was dropped."));
            } else if (!level.equals(factor.reference())) {
                kept.add(level);
            }
        }
        return kept;
    }

    private static void refuseAliased(Column column, int j, ThinQr qr) {
        double square = 0;
        for (int i = 0; i <= j; i++) {
            square += qr.r(i, j) * qr.r(i, j);
        }
        if (!(qr.r(j, j) > ALIASED * FastMath.sqrt(square))) {
            throw new IllegalArgumentException("column " + column.name()
                    + " is aliased: it is a linear combination of the columns before it; leave its term out");
        }
    }

    /** Names of the columns, the intercept first. */
    public List<String> columnNames() {
        return columns.stream().map(Column::name).toList();
    }

    /** The terms, in the order given. */
    public List<Term> terms() {
        return terms;
    }

    /** Levels that were dropped. */
    public List<Note> notes() {
        return notes;
    }

    /** Events of all patterns together. */
    public long events() {
        return patterns.stream()
                .mapToLong(pattern -> pattern.proportion().events())
                .sum();
    }

    /** Trials of all patterns together. */
    public long of() {
        return patterns.stream().mapToLong(pattern -> pattern.proportion().of()).sum();
    }

    /** Those with trials, in the order given. */
    List<CovariatePattern> patterns() {
        return patterns;
    }

    int parameters() {
        return columns.size();
    }

    /** Indices of a term's columns. */
    List<Integer> columnsOf(Term term) {
        return IntStream.range(0, columns.size())
                .filter(j -> term.equals(columns.get(j).term()))
                .boxed()
                .toList();
    }

    /** Q, column by column. */
    double[][] standardised() {
        double[][] standardised = new double[columns.size()][];
        for (int j = 0; j < standardised.length; j++) {
            standardised[j] = ThinQr.times(qr.q(j), scale);
        }
        return standardised;
    }

    /** log|det R|: the penalty in β less the penalty in θ. */
    double logDeterminant() {
        return qr.logDeterminant() - parameters() * FastMath.log(scale);
    }

    /** β of θ. */
    double[] coefficients(double[] theta) {
        return qr.solve(ThinQr.times(theta, scale));
    }

    /** c with βⱼ = cᵀθ. */
    double[] contrast(int column) {
        double[] unit = new double[columns.size()];
        unit[column] = scale;
        return qr.solveTransposed(unit);
    }

    /** Where fits start: intercept logit((y+½)/(n+1)) over all, every other coefficient 0. */
    double[] start() {
        double[] theta = new double[columns.size()];
        theta[0] = qr.r(0, 0) / scale * FastMath.log((events() + 0.5) / (of() - events() + 0.5));
        return theta;
    }

    /** The models θ in which βⱼ has this value. */
    Subspace fixing(int column, double value) {
        return Subspace.orthogonalTo(contrast(column), value);
    }

    /** The models θ in which all coefficients but these are 0. */
    Subspace keeping(List<Integer> kept) {
        double[][] spanning = new double[kept.size()][parameters()];
        for (int k = 0; k < spanning.length; k++) {
            for (int i = 0; i <= kept.get(k); i++) {
                spanning[k][i] = qr.r(i, kept.get(k));
            }
        }
        return Subspace.spannedBy(spanning, parameters());
    }
}
