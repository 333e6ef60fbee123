package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.reports.Report;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Method;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Asks the reports what a meeting shows, each as of its cut. */
@Component
class MeetingFigures {

    private final Reports reports;

    /** With fewer on a side one case more or less turns the odds around; common practice, no single source. */
    private static final long FEWEST_EVENTS = 5;

    MeetingFigures(Reports reports) {
        this.reports = reports;
    }

    /** The figures of a meeting in their order. */
    List<Answer> answers(Scope scope) {
        Map<String, List<String>> periods = scope.query(scope.span());
        Map<String, List<String>> upToThem = scope.query();
        upToThem.put("to", List.of(scope.span().to().toString()));
        List<Answer> answers = new ArrayList<>();
        answers.add(ask("incidence", with(periods, "by", "deviceClass"), scope).answer());
        answers.add(comparison(scope));
        answers.add(ask("retrieval", periods, scope).answer());
        List<String> factors = factorsThatCarry(Counts.of(ask("risk-factors", periods, scope)));
        if (!factors.isEmpty()) {
            answers.add(ask("risk-factors", with(periods, "factors", String.join(",", factors)), scope)
                    .answer());
        }
        answers.add(ask("over-time", upToThem, scope).answer());
        answers.add(ask("completeness", periods, scope).answer());
        return List.copyOf(answers);
    }

    /** The factors of which some level and its reference have events enough to be compared, in their order. */
    private static List<String> factorsThatCarry(Counts risk) {
        return risk.rows()
                .filter(row -> row.count("events") >= FEWEST_EVENTS && row.count("referenceEvents") >= FEWEST_EVENTS)
                .map(row -> row.text("factor"))
                .distinct()
                .toList();
    }

    private Report ask(String report, Map<String, List<String>> query, Scope scope) {
        return reports.ask(report, query, scope.viewer());
    }

    private Answer comparison(Scope scope) {
        Counts now = Counts.of(ask("incidence", scope.query(scope.span()), scope));
        Counts previous = Counts.of(ask("incidence", scope.query(scope.previous()), scope));
        List<Comparison.Line> others = new ArrayList<>();
        others.add(line(
                (scope.ofMeeting() ? "Previous meeting, " : "Periods before, ")
                        + scope.previous().words(),
                previous,
                row -> true));
        List<String> notes = new ArrayList<>(now.notes());
        if (scope.centre() != null) {
            Map<String, List<String>> network = with(scope.query(scope.span()), "by", "centre");
            network.remove("centre");
            Counts all = Counts.of(ask("incidence", network, scope));
            others.add(line("Other centres, " + scope.span().words(), all, row -> !row.text("centre")
                    .equals(scope.centre())));
            notes.add(
                    "The other centres are taken together and none of them is named; they differ in what they treat.");
        }
        previous.notes().stream().filter(note -> !notes.contains(note)).forEach(notes::add);
        Method method = Comparison.method();
        Map<String, Object> filters = new LinkedHashMap<>();
        if (scope.centre() != null) {
            filters.put("centre", List.of(scope.centre()));
        }
        filters.put("from", scope.span().from());
        filters.put("to", scope.span().to());
        return Comparison.of(
                line("This meeting, " + scope.span().words(), now, row -> true),
                others,
                List.copyOf(notes),
                new Answer.Basis(
                        method.name(),
                        method.citation(),
                        scope.cut().revision(),
                        scope.cut().at(),
                        filters,
                        Confidence.DEFAULT.level()));
    }

    private static Comparison.Line line(String label, Counts counts, Predicate<Counts.Row> which) {
        return new Comparison.Line(label, counts.sum(which, "events"), counts.sum(which, "uses"));
    }

    /** What an action is measured by, before and after, as of a cut. */
    Effect effect(@Nullable String centre, Measure measure, boolean due, DataCut cut, Viewer viewer) {
        Scope before = new Scope(centre, measure.before(), measure.before(), false, cut, viewer);
        return Effect.of(
                measure,
                cut,
                due,
                counted(before, measure, measure.before()),
                counted(before, measure, measure.after()));
    }

    private Comparison.Line counted(Scope scope, Measure measure, PeriodRange periods) {
        Map<String, List<String>> query = scope.query(periods);
        query.putAll(measure.filters());
        Counts counts = Counts.of(ask(measure.report().code(), query, scope));
        String label = periods.words();
        return switch (measure.report()) {
            case INCIDENCE -> line(label, counts, row -> true);
            case RETRIEVAL -> {
                Predicate<Counts.Row> any = row -> row.text("technique").equals("any");
                yield new Comparison.Line(label, counts.sum(any, "firstReleased"), counts.sum(any, "firstOf"));
            }
            case HARM -> {
                Harm least = measure.harm();
                Set<String> counting = Stream.of(Harm.values())
                        .filter(degree -> least != null && degree.compareTo(least) >= 0)
                        .map(Harm::code)
                        .collect(Collectors.toSet());
                yield new Comparison.Line(
                        label,
                        counts.sum(row -> isHarm(row) && counting.contains(row.text("code")), "events"),
                        counts.sum(row -> isHarm(row) && row.text("code").equals(Harm.NONE.code()), "of"));
            }
            case COMPLETENESS -> {
                Predicate<Counts.Row> complete = row -> row.text("measure").equals("complete");
                yield new Comparison.Line(label, counts.sum(complete, "events"), counts.sum(complete, "of"));
            }
        };
    }

    private static boolean isHarm(Counts.Row row) {
        return row.text("outcome").equals("harm");
    }

    private static Map<String, List<String>> with(Map<String, List<String>> query, String name, String value) {
        Map<String, List<String>> further = new LinkedHashMap<>(query);
        further.put(name, List.of(value));
        return further;
    }
}
