package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.confidence;

import entrapment.registry.intake.Entry;
import entrapment.registry.intake.Fields;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.CovariatePattern;
import entrapment.registry.stats.DesignMatrix;
import entrapment.registry.stats.DiscriminationAnalysis;
import entrapment.registry.stats.LogisticAnalysis;
import entrapment.registry.stats.LogisticFirthAnalysis;
import entrapment.registry.stats.LogisticRandomInterceptAnalysis;
import entrapment.registry.stats.LogisticSeparationAnalysis;
import entrapment.registry.stats.PredictedRow;
import entrapment.registry.stats.Term;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Bodies of logistic models: the terms, and patterns of their values with events and uses. A problem points at the term,
 * level or pattern at fault; the names of levels, which may be anything, are not repeated.
 */
final class LogisticCalculations {

    private static final int MOST_COLUMNS = 50;
    private static final int MOST_PATTERNS = 2_000;
    private static final double LARGEST_NUMBER = 1e9;

    /** A term's name becomes a field of the patterns, and problems repeat it, so it is a plain word. */
    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_.-]{0,39}");

    private static final Set<String> COUNTS = Set.of("events", "of");

    private LogisticCalculations() {}

    static Supplier<Record> logistic(Fields fields) {
        Optional<DesignMatrix> design = design(fields, null);
        Confidence confidence = confidence(fields);
        return () -> LogisticAnalysis.of(design.orElseThrow(), confidence);
    }

    static Supplier<Record> separation(Fields fields) {
        Optional<DesignMatrix> design = design(fields, null);
        return () -> LogisticSeparationAnalysis.of(design.orElseThrow());
    }

    static Supplier<Record> firth(Fields fields) {
        Optional<DesignMatrix> design = design(fields, null);
        Confidence confidence = confidence(fields);
        return () -> LogisticFirthAnalysis.of(design.orElseThrow(), confidence);
    }

    static Supplier<Record> discrimination(Fields fields) {
        List<PredictedRow> rows = fields.requiredObjects(
                "rows",
                CountFields.MOST_ROWS,
                row -> new PredictedRow(row.requiredReal("predicted", 0, 1), CountFields.proportion(row)));
        Confidence confidence = confidence(fields);
        return () -> DiscriminationAnalysis.of(rows, confidence);
    }

    /** {@code cluster} names the property of the patterns that says whose uses they are. */
    static Supplier<Record> randomIntercept(Fields fields) {
        String cluster = name(fields, "cluster");
        Optional<DesignMatrix> design = design(fields, cluster.isEmpty() ? null : cluster);
        return () -> LogisticRandomInterceptAnalysis.of(design.orElseThrow(), cluster);
    }

    /** The design, or empty after noting why there is none. Patterns are read once the terms are right. */
    private static Optional<DesignMatrix> design(Fields fields, @Nullable String cluster) {
        List<Term> terms = fields.requiredObjects("terms", MOST_COLUMNS, LogisticCalculations::term);
        CountFields.refuseRepeated(fields, "terms", terms, Term::name);
        if (terms.stream().map(Term::name).anyMatch(name -> name.equals(cluster))) {
            fields.refuse("cluster", "name-repeated", "cluster must not be one of the terms");
        }
        if (terms.stream().mapToInt(LogisticCalculations::columns).sum() >= MOST_COLUMNS) {
            fields.refuse("terms", "too-many", "terms must have at most " + (MOST_COLUMNS - 1) + " columns together");
        }
        if (!fields.has("patterns") || fields.sound("/terms")) {
            List<CovariatePattern> patterns =
                    fields.requiredObjects("patterns", MOST_PATTERNS, row -> pattern(row, terms, cluster));
            if (fields.sound("")) {
                refuseWithoutUses(fields, terms, patterns);
            }
            if (fields.sound("")) {
                return design(fields, terms, patterns);
            }
        }
        return Optional.empty();
    }

    private static Optional<DesignMatrix> design(Fields fields, List<Term> terms, List<CovariatePattern> patterns) {
        try {
            return Optional.of(DesignMatrix.of(terms, patterns));
        } catch (IllegalArgumentException aliased) {
            // All else was asked before; the message names the column, which is found again here, not repeated.
            fields.refuseAt(
                    placeOf(terms, String.valueOf(aliased.getMessage())),
                    "aliased",
                    "this is a linear combination of what comes before it, so its odds ratio cannot be told apart;"
                            + " leave the term out");
            return Optional.empty();
        }
    }

    private static String placeOf(List<Term> terms, String message) {
        for (int i = 0; i < terms.size(); i++) {
            if (message.startsWith("column " + terms.get(i).name() + " is aliased")) {
                return "/terms/" + i;
            }
            if (terms.get(i) instanceof Term.Factor factor) {
                for (int j = 0; j < factor.levels().size(); j++) {
                    String column = factor.name() + "[" + factor.levels().get(j) + "]";
                    if (message.startsWith("column " + column + " is aliased")) {
                        return "/terms/" + i + "/levels/" + j;
                    }
                }
            }
        }
        return "/terms";
    }

    private static int columns(Term term) {
        return term instanceof Term.Factor factor ? factor.levels().size() - 1 : 1;
    }

    /** A term; where its levels are wrong a number of that name, which is never computed with. */
    private static Term term(Fields fields) {
        String name = name(fields, "name");
        String type = fields.requiredText("type");
        if (!type.equals("factor")) {
            if (!type.equals("numeric") && fields.has("type")) {
                fields.refuse("type", "not-a-code", "type must be factor or numeric");
            }
            return new Term.Numeric(name);
        }
        List<String> levels = fields.list("levels", MOST_COLUMNS, Entry::text);
        String reference = fields.requiredText("reference");
        if (fields.sound("/levels") && (levels.size() < 2 || new HashSet<>(levels).size() < levels.size())) {
            fields.refuse("levels", "levels-by-name", "levels must be two or more different texts");
        }
        if (!reference.isEmpty() && fields.sound("/levels") && !levels.contains(reference)) {
            fields.refuse("reference", "not-a-level", "reference must be one of the levels");
        }
        return fields.sound("") ? new Term.Factor(name, levels, reference) : new Term.Numeric(name);
    }

    private static String name(Fields fields, String field) {
        String name = fields.requiredText(field);
        if (!name.isEmpty() && (!NAME.matcher(name).matches() || COUNTS.contains(name))) {
            fields.refuse(
                    field,
                    "not-a-name",
                    field + " must be a letter followed by up to 39 letters, digits, '.', '_' or '-', and neither"
                            + " events nor of");
        }
        return name;
    }

    /** A pattern has one property for each term, the counts, and the cluster where there is one. */
    private static CovariatePattern pattern(Fields fields, List<Term> terms, @Nullable String cluster) {
        Map<String, String> levels = new HashMap<>();
        Map<String, Double> numbers = new HashMap<>();
        for (Term term : terms) {
            if (term instanceof Term.Factor factor) {
                String level = fields.requiredText(factor.name());
                if (!level.isEmpty() && !factor.levels().contains(level)) {
                    fields.refuse(factor.name(), "not-a-level", factor.name() + " must be one of the term's levels");
                }
                levels.put(factor.name(), level);
            } else {
                numbers.put(term.name(), fields.requiredReal(term.name(), -LARGEST_NUMBER, LARGEST_NUMBER));
            }
        }
        if (cluster != null) {
            levels.put(cluster, fields.requiredText(cluster));
        }
        return new CovariatePattern(levels, numbers, CountFields.proportion(fields));
    }

    private static void refuseWithoutUses(Fields fields, List<Term> terms, List<CovariatePattern> patterns) {
        List<CovariatePattern> used = patterns.stream()
                .filter(pattern -> pattern.proportion().of() > 0)
                .toList();
        if (used.isEmpty()) {
            fields.refuse("patterns", "no-uses", "patterns must have at least one use");
            return;
        }
        for (int i = 0; i < terms.size(); i++) {
            if (terms.get(i) instanceof Term.Factor factor
                    && used.stream().noneMatch(pattern -> factor.reference()
                            .equals(pattern.levels().get(factor.name())))) {
                fields.refuseAt(
                        "/terms/" + i + "/reference", "no-uses", "the reference level must have uses; choose another");
            }
        }
    }
}
