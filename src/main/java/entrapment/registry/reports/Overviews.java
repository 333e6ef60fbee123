package entrapment.registry.reports;

import entrapment.registry.access.Viewer;
import entrapment.registry.reports.completeness.CompletenessQuery;
import entrapment.registry.reports.completeness.CompletenessQuestion;
import entrapment.registry.reports.harm.HarmQuery;
import entrapment.registry.reports.harm.HarmQuestion;
import entrapment.registry.reports.incidence.IncidenceQuery;
import entrapment.registry.reports.incidence.IncidenceQuestion;
import entrapment.registry.reports.incidence.IncidenceReport;
import entrapment.registry.reports.overtime.OverTimeQuery;
import entrapment.registry.reports.overtime.OverTimeQuery.Chart;
import entrapment.registry.reports.overtime.OverTimeQuestion;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.retrieval.RetrievalQuery;
import entrapment.registry.reports.retrieval.RetrievalQuestion;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/** Puts together what to see first: headlines of the last periods, and what needs attention. */
@Component
public class Overviews {

    private final Reports reports;
    private final IncidenceQuestion incidence;
    private final RetrievalQuestion retrieval;
    private final HarmQuestion harm;
    private final OverTimeQuestion overTime;
    private final CompletenessQuestion completeness;

    Overviews(
            Reports reports,
            IncidenceQuestion incidence,
            RetrievalQuestion retrieval,
            HarmQuestion harm,
            OverTimeQuestion overTime,
            CompletenessQuestion completeness) {
        this.reports = reports;
        this.incidence = incidence;
        this.retrieval = retrieval;
        this.harm = harm;
        this.overTime = overTime;
        this.completeness = completeness;
    }

    /** Of the own centre, or of the network for its steward; all of it as of one data cut. */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public Overview of(Viewer viewer) {
        ReportScope own = ReportScope.of(viewer).at(viewer.centre());
        IncidenceReport byPeriod = reports.ask(incidence, IncidenceQuery.of(own, GroupBy.PERIOD));
        List<Period> periods = Overview.lastPeriods(byPeriod);
        Period from = periods.isEmpty() ? null : periods.get(0);
        Period to = periods.isEmpty() ? null : periods.get(periods.size() - 1);
        ReportScope lately = own.between(from, to);
        return new Overview(
                byPeriod.heading().dataCut(),
                from,
                to,
                Overview.headlines(
                        reports.ask(incidence, IncidenceQuery.of(lately)),
                        reports.ask(retrieval, new RetrievalQuery(lately, List.of())),
                        reports.ask(harm, new HarmQuery(lately, List.of()))),
                Overview.attention(
                        Stream.of(Chart.PROPORTION, Chart.CUSUM)
                                .map(chart -> reports.ask(overTime, OverTimeQuery.of(own, chart)))
                                .toList(),
                        reports.ask(completeness, new CompletenessQuery(own, GroupBy.CENTRE))));
    }
}
