package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.completeness.CompletenessQuery;
import entrapment.registry.reports.completeness.CompletenessQuestion;
import entrapment.registry.reports.completeness.CompletenessReport;
import entrapment.registry.reports.harm.HarmQuery;
import entrapment.registry.reports.harm.HarmQuestion;
import entrapment.registry.reports.harm.HarmReport;
import entrapment.registry.reports.incidence.IncidenceQuery;
import entrapment.registry.reports.incidence.IncidenceQuestion;
import entrapment.registry.reports.incidence.IncidenceReport;
import entrapment.registry.reports.incidence.IncidenceReport.Rate;
import entrapment.registry.reports.overtime.OverTimeQuery;
import entrapment.registry.reports.overtime.OverTimeQuestion;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.retrieval.RetrievalQuery;
import entrapment.registry.reports.retrieval.RetrievalQuestion;
import entrapment.registry.reports.retrieval.RetrievalReport;
import entrapment.registry.reports.riskfactors.ComparedLevel;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery;
import entrapment.registry.reports.riskfactors.RiskFactorsQuestion;
import entrapment.registry.reports.riskfactors.RiskFactorsReport;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Method;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Harm;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Asks the reports what a meeting shows, each as of its cut. */
@Component
class MeetingFigures {

    /** With fewer on a side one case more or less turns the odds around; common practice, no single source. */
    private static final long FEWEST_EVENTS = 5;

    private final Reports reports;
    private final IncidenceQuestion incidence;
    private final RetrievalQuestion retrieval;
    private final RiskFactorsQuestion riskFactors;
    private final OverTimeQuestion overTime;
    private final HarmQuestion harm;
    private final CompletenessQuestion completeness;

    MeetingFigures(
            Reports reports,
            IncidenceQuestion incidence,
            RetrievalQuestion retrieval,
            RiskFactorsQuestion riskFactors,
            OverTimeQuestion overTime,
            HarmQuestion harm,
            CompletenessQuestion completeness) {
        this.reports = reports;
        this.incidence = incidence;
        this.retrieval = retrieval;
        this.riskFactors = riskFactors;
        this.overTime = overTime;
        this.harm = harm;
        this.completeness = completeness;
    }

    List<Answer> answers(Scope scope) {
        ReportScope periods = scope.of(scope.span());
        List<Answer> answers = new ArrayList<>();
        answers.add(reports.ask(incidence, IncidenceQuery.of(periods, GroupBy.DEVICE_CLASS))
                .answer());
        answers.add(comparison(scope));
        answers.add(
                reports.ask(retrieval, new RetrievalQuery(periods, List.of())).answer());
        List<Factor> factors = factorsThatCarry(reports.ask(riskFactors, RiskFactorsQuery.crude(periods, List.of())));
        if (!factors.isEmpty()) {
            answers.add(reports.ask(riskFactors, RiskFactorsQuery.crude(periods, factors))
                    .answer());
        }
        answers.add(reports.ask(
                        overTime,
                        OverTimeQuery.of(periods.between(null, scope.span().to()), OverTimeQuery.Chart.PROPORTION))
                .answer());
        answers.add(completeness(periods).answer());
        return List.copyOf(answers);
    }

    private CompletenessReport completeness(ReportScope scope) {
        return reports.ask(completeness, new CompletenessQuery(scope, GroupBy.CENTRE));
    }

    /** The factors of which some level and its reference have events enough to be compared, in their order. */
    private static List<Factor> factorsThatCarry(RiskFactorsReport risk) {
        return risk.groups().stream()
                .filter(odds -> odds.events() >= FEWEST_EVENTS && referenceEvents(odds) >= FEWEST_EVENTS)
                .<Factor>map(ComparedLevel::factor)
                .distinct()
                .toList();
    }

    private static long referenceEvents(ComparedLevel odds) {
        Proportion reference = odds.referenceCounts();
        return reference == null ? 0 : reference.events();
    }

    private Answer comparison(Scope scope) {
        IncidenceReport now = reports.ask(incidence, IncidenceQuery.of(scope.of(scope.span())));
        IncidenceReport previous = reports.ask(incidence, IncidenceQuery.of(scope.of(scope.previous())));
        List<Comparison.Line> others = new ArrayList<>();
        others.add(line(
                (scope.ofMeeting() ? "Previous meeting, " : "Periods before, ")
                        + scope.previous().words(),
                previous,
                rate -> true));
        List<String> notes = new ArrayList<>(words(now));
        String centre = scope.centre();
        if (centre != null) {
            IncidenceReport all = reports.ask(
                    incidence, IncidenceQuery.of(scope.of(scope.span()).at(null), GroupBy.CENTRE));
            others.add(line("Other centres, " + scope.span().words(), all, rate -> !rate.level()
                    .codes()
                    .equals(centre)));
            notes.add(
                    "The other centres are taken together and none of them is named; they differ in what they treat.");
        }
        words(previous).stream().filter(note -> !notes.contains(note)).forEach(notes::add);
        Method method = Comparison.method();
        return Comparison.of(
                line("This meeting, " + scope.span().words(), now, rate -> true),
                others,
                List.copyOf(notes),
                new Answer.Basis(
                        method.name(),
                        method.citation(),
                        scope.cut().revision(),
                        scope.cut().at(),
                        now.heading().filters(),
                        Confidence.DEFAULT.level()));
    }

    private static List<String> words(Report report) {
        return report.notes().stream().map(Note::forPeople).toList();
    }

    private static Comparison.Line line(String label, IncidenceReport report, Predicate<Rate> which) {
        return new Comparison.Line(
                label,
                report.groups().stream().filter(which).mapToLong(Rate::events).sum(),
                report.groups().stream().filter(which).mapToLong(Rate::uses).sum());
    }

    /** What an action is measured by, before and after, as of a cut. */
    Effect effect(@Nullable String centre, Measure measure, boolean due, DataCut cut, Viewer viewer) {
        Scope scope = new Scope(centre, measure.before(), measure.before(), false, cut, viewer);
        return Effect.of(
                measure, cut, due, counted(scope, measure, measure.before()), counted(scope, measure, measure.after()));
    }

    private Comparison.Line counted(Scope scope, Measure measure, PeriodRange periods) {
        ReportScope about = scope.of(periods).where(measure.levels());
        String label = periods.words();
        return switch (measure.report()) {
            case INCIDENCE -> line(label, reports.ask(incidence, IncidenceQuery.of(about)), rate -> true);
            case RETRIEVAL -> {
                List<RetrievalReport.Success> overall = reports.ask(retrieval, new RetrievalQuery(about, List.of()))
                        .overall();
                yield new Comparison.Line(
                        label,
                        overall.stream().mapToLong(all -> all.first().events()).sum(),
                        overall.stream().mapToLong(all -> all.first().of()).sum());
            }
            case HARM -> {
                List<HarmReport.Cost> groups =
                        reports.ask(harm, new HarmQuery(about, List.of())).groups();
                Harm least = measure.harm();
                yield new Comparison.Line(
                        label,
                        least == null
                                ? 0
                                : groups.stream()
                                        .mapToLong(cost -> cost.atLeast(least))
                                        .sum(),
                        groups.stream().mapToLong(HarmReport.Cost::cases).sum());
            }
            case COMPLETENESS -> {
                Proportion complete = completeness(about).complete();
                yield new Comparison.Line(label, complete.events(), complete.of());
            }
        };
    }
}
