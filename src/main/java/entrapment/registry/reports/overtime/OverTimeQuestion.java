package entrapment.registry.reports.overtime;

import entrapment.registry.access.DataCut;
import entrapment.registry.reports.overtime.OverTimeQuery.Chart;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.question.Tallies;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** Is it changing? */
@Component
@Order(4)
public class OverTimeQuestion extends Question<OverTimeQuery, Counting, OverTimeReport> {

    private static final Parameter<Chart> CHART = Parameter.oneOf("chart", List.of(Chart.values()), Chart::code);
    private static final Parameter<@Nullable Double> BASELINE = Parameter.number("baseline", 1e-6, 0.5);
    private static final Parameter<@Nullable Period> BASELINE_FROM = Parameter.period("baselineFrom");
    private static final Parameter<@Nullable Period> BASELINE_TO = Parameter.period("baselineTo");
    private static final Parameter<Double> ODDS_RATIO = Parameter.number(
                    "oddsRatio", 1.1, 100, OverTimeQuery.DOUBLING, "1.5", "2", "3")
            .folded();
    private static final Parameter<Double> THRESHOLD = Parameter.number(
                    "threshold", 0.5, 20, OverTimeQuery.USUAL_THRESHOLD, "3.5", "4.5")
            .folded();

    private final Tallies tallies;

    OverTimeQuestion(Tallies tallies) {
        super("over-time", OverTimeReport::of, CHART, BASELINE_FROM, BASELINE_TO, BASELINE, ODDS_RATIO, THRESHOLD);
        this.tallies = tallies;
    }

    @Override
    protected OverTimeQuery query(ReportScope scope, Asked asked) {
        return new OverTimeQuery(
                scope,
                asked.get(CHART),
                asked.get(BASELINE),
                asked.get(BASELINE_FROM),
                asked.get(BASELINE_TO),
                asked.get(ODDS_RATIO),
                asked.get(THRESHOLD));
    }

    @Override
    public Counting count(OverTimeQuery query, DataCut cut) {
        return tallies.apart(cut, query.scope(), List.of(GroupBy.PERIOD));
    }
}
