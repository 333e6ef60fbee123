package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.CovariatePattern;
import entrapment.registry.stats.DesignMatrix;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.LogisticFirthAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.Separation;
import entrapment.registry.stats.Term;
import entrapment.registry.vocabulary.Factor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * What raises the odds, allowing for the other factors? One Firth-penalised logistic model of the complete uses, with
 * profile-likelihood limits and penalised likelihood-ratio tests.
 *
 * @param eventsPerParameter below 2 no model is fitted, below 5 it is exploratory
 * @param separation whether plain maximum likelihood would have had finite estimates; null without a model
 * @param dropped uses left out because a factor of theirs is unknown, with their own rate
 * @param centres how centre entered the model: {@code columns} or {@code not in the model}
 */
@JsonPropertyOrder({
    "heading",
    "model",
    "events",
    "uses",
    "eventsPerParameter",
    "separation",
    "centres",
    "groups",
    "overall",
    "dropped",
    "excluded",
    "notes",
    "cautions"
})
public record AdjustedRiskFactorsReport(
        @JsonUnwrapped ReportHeading heading,
        String model,
        long events,
        long uses,
        @Nullable Double eventsPerParameter,
        @Nullable String separation,
        String centres,
        List<Odds> groups,
        LogisticFirthAnalysis.Overall overall,
        Dropped dropped,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /** One level of a factor against its reference, the other factors held equal; limits by profile likelihood. */
    record Odds(
            String factor,
            String level,
            String reference,
            long events,
            long uses,
            @Nullable Double oddsRatio,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double pValue,
            String sentence)
            implements ComparedLevel {}

    /** What was left out for unknown values; the estimate is its rate, to be held against that of what was kept. */
    record Dropped(long events, long uses, @Nullable Double estimate) {}

    /** With few centres that each have events, centre is held equal by columns of its own (statistics, 6.5). */
    private static final int MOST_CENTRE_COLUMNS = 5;

    private static final long EVENTS_FOR_A_CENTRE_COLUMN = 5;

    static AdjustedRiskFactorsReport of(RiskFactorsQuery query, DataCut cut, Counting counting) {
        Confidence confidence = query.scope().confidence();
        List<String> notes = new ArrayList<>();
        List<Counting.Group> kept = new ArrayList<>();
        Dropped dropped = sort(counting, kept, notes);
        List<Factor> factors = query.factors();
        List<Term> terms = new ArrayList<>();
        for (int index = 0; index < factors.size(); index++) {
            term(factors.get(index).code(), index, kept, notes).ifPresent(terms::add);
        }
        boolean centreColumns = centreColumns(kept, factors.size());
        if (centreColumns) {
            term("centre", factors.size(), kept, notes).ifPresent(terms::add);
        } else {
            notes.add("Centre is not in this model: too many centres, or too few events in some. Ask"
                    + " model=stratified&stratifyBy=centre for a comparison within centres.");
        }
        notes.addAll(Words.exclusions(counting));
        LogisticFirthAnalysis analysis = terms.isEmpty() || kept.isEmpty()
                ? null
                : LogisticFirthAnalysis.of(DesignMatrix.of(terms, patterns(kept, factors)), confidence);
        if (analysis == null) {
            notes.add("Fewer than two levels in use of every factor, so there is no model.");
        } else {
            analysis.notes().forEach(note -> notes.add(note.withCode()));
        }
        Separation separation = analysis == null ? null : analysis.separationOfMl();
        return new AdjustedRiskFactorsReport(
                new ReportHeading(
                        "risk-factors",
                        "What raises the odds, allowing for the other factors?",
                        cut,
                        query.scope().filters(),
                        factors.stream().map(Factor::code).toList(),
                        confidence.level(),
                        Calculation.LOGISTIC_FIRTH.method()),
                "adjusted",
                kept.stream().mapToLong(Counting.Group::events).sum(),
                kept.stream().mapToLong(Counting.Group::uses).sum(),
                analysis == null ? null : analysis.eventsPerParameter(),
                separation == null ? null : separation.toString(),
                centreColumns ? "columns" : "not in the model",
                analysis == null ? List.of() : odds(terms, factors, kept, analysis, confidence),
                analysis == null ? new LogisticFirthAnalysis.Overall(null, 0, null) : analysis.overallPlr(),
                dropped,
                counting.excluded(),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    /** Parts what can be modelled from what is unknown or contradicts itself. */
    private static Dropped sort(Counting counting, List<Counting.Group> kept, List<String> notes) {
        long events = 0;
        long uses = 0;
        long contradictory = 0;
        for (Counting.Group group : counting.groups()) {
            if (group.levels().contains(Factor.UNKNOWN)) {
                events += group.events();
                uses += group.uses();
            } else if (group.events() > group.uses()) {
                contradictory++;
            } else {
                kept.add(group);
            }
        }
        if (contradictory > 0) {
            notes.add(contradictory
                    + " patterns were left out, because their entrapments outnumber their uses: cases and returns may be"
                    + " coded differently.");
        }
        Double estimate = events > uses ? null : new Proportion(events, uses).estimate();
        if (events + uses > 0) {
            notes.add("Left out for unknown values: %s in %s%s."
                    .formatted(
                            Words.entrapments(events),
                            Words.uses(uses),
                            estimate == null ? "" : ", " + NumberText.perThousand(estimate) + " per 1,000"));
        }
        return new Dropped(events, uses, estimate);
    }

    /** A factor as a term of the model; none where fewer than two of its levels are in use. */
    private static Optional<Term> term(String name, int place, List<Counting.Group> kept, List<String> notes) {
        Map<String, Long> uses = new LinkedHashMap<>();
        kept.forEach(group -> uses.merge(group.levels().get(place), group.uses(), Long::sum));
        List<String> levels = uses.entrySet().stream()
                .filter(level -> level.getValue() > 0)
                .map(Map.Entry::getKey)
                .toList();
        if (levels.size() < 2) {
            notes.add(name + ": fewer than two levels in use, so it is not in the model.");
            return Optional.empty();
        }
        String reference = levels.stream()
                .max((one, other) -> Long.compare(uses.getOrDefault(one, 0L), uses.getOrDefault(other, 0L)))
                .orElseThrow();
        return Optional.of(new Term.Factor(name, levels, reference));
    }

    private static boolean centreColumns(List<Counting.Group> kept, int place) {
        Map<String, Long> events = new TreeMap<>();
        kept.forEach(group -> events.merge(group.levels().get(place), group.events(), Long::sum));
        return events.size() > 1
                && events.size() <= MOST_CENTRE_COLUMNS
                && events.values().stream().allMatch(count -> count >= EVENTS_FOR_A_CENTRE_COLUMN);
    }

    private static List<CovariatePattern> patterns(List<Counting.Group> kept, List<Factor> factors) {
        return kept.stream()
                .map(group -> {
                    Map<String, String> levels = new LinkedHashMap<>();
                    for (int index = 0; index < factors.size(); index++) {
                        levels.put(factors.get(index).code(), group.levels().get(index));
                    }
                    levels.put("centre", group.levels().get(factors.size()));
                    return new CovariatePattern(levels, Map.of(), new Proportion(group.events(), group.uses()));
                })
                .toList();
    }

    private static List<Odds> odds(
            List<Term> terms,
            List<Factor> factors,
            List<Counting.Group> kept,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        List<Odds> odds = new ArrayList<>();
        for (int place = 0; place < factors.size(); place++) {
            String name = factors.get(place).code();
            for (Term term : terms) {
                if (term instanceof Term.Factor factor && factor.name().equals(name)) {
                    for (String level : factor.levels()) {
                        if (!level.equals(factor.reference())) {
                            odds.add(odds(factor, level, place, kept, analysis, confidence));
                        }
                    }
                }
            }
        }
        return List.copyOf(odds);
    }

    private static Odds odds(
            Term.Factor factor,
            String level,
            int place,
            List<Counting.Group> kept,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        List<Counting.Group> own = kept.stream()
                .filter(group -> group.levels().get(place).equals(level))
                .toList();
        LogisticFirthAnalysis.Coefficient fitted = analysis.coefficients().get(factor.name() + "[" + level + "]");
        Interval limits = fitted == null ? Interval.NOT_ESTIMABLE : fitted.profileOddsRatio();
        Double ratio = fitted == null ? null : fitted.oddsRatio();
        Double pValue = fitted == null ? null : fitted.plrPValue();
        return new Odds(
                factor.name(),
                level,
                factor.reference(),
                own.stream().mapToLong(Counting.Group::events).sum(),
                own.stream().mapToLong(Counting.Group::uses).sum(),
                ratio,
                limits.lower(),
                limits.upper(),
                pValue,
                sentence(factor, level, ratio, limits, pValue, analysis, confidence));
    }

    private static String sentence(
            Term.Factor factor,
            String level,
            @Nullable Double ratio,
            Interval limits,
            @Nullable Double pValue,
            LogisticFirthAnalysis analysis,
            Confidence confidence) {
        Double lower = limits.lower();
        Double upper = limits.upper();
        String name = "%s %s against %s".formatted(factor.name(), level, factor.reference());
        if (ratio == null || lower == null || upper == null) {
            return name + ": no adjusted odds ratio can be given; see the notes.";
        }
        return "Adjusted odds ratio %s for %s (%s %% CI %s to %s, Firth; p %s), from %s."
                .formatted(
                        NumberText.ratio(ratio),
                        name,
                        NumberText.level(confidence.level()),
                        NumberText.ratio(lower),
                        NumberText.ratio(upper),
                        pValue == null ? "not found" : NumberText.pValue(pValue),
                        Words.entrapments(analysis.events()));
    }

    @Override
    public Answer answer() {
        return RiskFactorsAnswer.of(heading, groups, notes);
    }

    @Override
    public Table table() {
        List<String> columns = List.of(
                "factor", "level", "reference", "events", "uses", "oddsRatio", "lower", "upper", "pValue", "sentence");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Odds odds : groups) {
            List<@Nullable Object> row =
                    new ArrayList<>(List.of(odds.factor(), odds.level(), odds.reference(), odds.events(), odds.uses()));
            row.add(odds.oddsRatio());
            row.add(odds.lower());
            row.add(odds.upper());
            row.add(odds.pValue());
            row.add(odds.sentence());
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
