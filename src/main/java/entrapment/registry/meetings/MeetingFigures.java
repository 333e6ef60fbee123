package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.reports.CompletenessQuery;
import entrapment.registry.reports.HarmQuery;
import entrapment.registry.reports.IncidenceQuery;
import entrapment.registry.reports.OverTimeQuery;
import entrapment.registry.reports.Report;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.RetrievalQuery;
import entrapment.registry.reports.RiskFactorsQuery;
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

    MeetingFigures(Reports reports) {
        this.reports = reports;
    }

    /** The figures of a meeting in their order. */
    List<Answer> answers(Scope scope) {
        Viewer viewer = scope.viewer();
        Map<String, List<String>> periods = scope.query(scope.span());
        List<Answer> answers = new ArrayList<>();
        answers.add(answer(reports.incidence(
                IncidenceQuery.of(with(periods, "by", "deviceClass"), viewer).orRefuse(), viewer)));
        answers.add(comparison(scope));
        answers.add(answer(reports.retrieval(RetrievalQuery.of(periods, viewer).orRefuse(), viewer)));
        Report risk = reports.riskFactors(RiskFactorsQuery.of(periods, viewer).orRefuse(), viewer);
        if (Counts.of(risk).carries("oddsRatio")) {
            answers.add(answer(risk));
        }
        Map<String, List<String>> upToNow = scope.query();
        upToNow.put("to", List.of(scope.span().to().toString()));
        answers.add(answer(reports.overTime(OverTimeQuery.of(upToNow, viewer).orRefuse(), viewer)));
        answers.add(answer(
                reports.completeness(CompletenessQuery.of(periods, viewer).orRefuse(), viewer)));
        return List.copyOf(answers);
    }

    private Answer comparison(Scope scope) {
        Viewer viewer = scope.viewer();
        Counts now = incidence(scope.query(scope.span()), viewer);
        Counts previous = incidence(scope.query(scope.previous()), viewer);
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
            Counts all = incidence(network, viewer);
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

    private Counts incidence(Map<String, List<String>> query, Viewer viewer) {
        return Counts.of(reports.incidence(IncidenceQuery.of(query, viewer).orRefuse(), viewer));
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

    private Comparison.Line counted(Scope scope, Measure measure, Span periods) {
        Map<String, List<String>> query = scope.query(periods);
        query.putAll(measure.filters());
        Viewer viewer = scope.viewer();
        return switch (measure.report()) {
            case INCIDENCE -> line(periods.words(), incidence(query, viewer), row -> true);
            case RETRIEVAL -> {
                Counts counts = Counts.of(
                        reports.retrieval(RetrievalQuery.of(query, viewer).orRefuse(), viewer));
                Predicate<Counts.Row> any = row -> row.text("technique").equals("any");
                yield new Comparison.Line(
                        periods.words(), counts.sum(any, "firstReleased"), counts.sum(any, "firstOf"));
            }
            case HARM -> {
                Counts counts =
                        Counts.of(reports.harm(HarmQuery.of(query, viewer).orRefuse(), viewer));
                Harm least = measure.harm();
                Set<String> counting = Stream.of(Harm.values())
                        .filter(degree -> least != null && degree.compareTo(least) >= 0)
                        .map(Harm::code)
                        .collect(Collectors.toSet());
                yield new Comparison.Line(
                        periods.words(),
                        counts.sum(row -> isHarm(row) && counting.contains(row.text("code")), "events"),
                        counts.sum(row -> isHarm(row) && row.text("code").equals(Harm.NONE.code()), "of"));
            }
            case COMPLETENESS -> {
                Counts counts = Counts.of(
                        reports.completeness(CompletenessQuery.of(query, viewer).orRefuse(), viewer));
                Predicate<Counts.Row> complete = row -> row.text("measure").equals("complete");
                yield new Comparison.Line(periods.words(), counts.sum(complete, "events"), counts.sum(complete, "of"));
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

    private static Answer answer(Report report) {
        return TableAnswer.of(report.table());
    }
}
