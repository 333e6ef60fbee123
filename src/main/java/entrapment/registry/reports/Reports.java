package entrapment.registry.reports;

import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.cases.Cases;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Selection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The reports of the registry. Each fixes a data cut, lets the database count events and uses as of that cut, and leaves
 * the rest to a pure function: the same question as of the same revision has the same answer for ever.
 */
@Component
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Reports {

    private final Cases cases;
    private final Activity activity;
    private final Revisions revisions;
    private final Centres centres;

    Reports(Cases cases, Activity activity, Revisions revisions, Centres centres) {
        this.cases = cases;
        this.activity = activity;
        this.revisions = revisions;
        this.centres = centres;
    }

    /** How often is a device entrapped? */
    public IncidenceReport incidence(IncidenceQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return IncidenceReport.of(query, cut, count(cut, query.scope().selection(), query.by(), viewer));
    }

    /** Which way out works, and how well as the first try? */
    public RetrievalReport retrieval(RetrievalQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return RetrievalReport.of(query, cut, cases.retrieval(cut, query.scope().selection(), query.by()));
    }

    /** What raises the odds? */
    public RiskFactorsReport riskFactors(RiskFactorsQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        Map<Factor, Counting> countings = new LinkedHashMap<>();
        for (Factor factor : query.factors()) {
            countings.put(factor, count(cut, query.scope().selection(), List.of(Axis.of(factor)), viewer));
        }
        return RiskFactorsReport.of(query, cut, countings);
    }

    private Counting count(DataCut cut, Selection selection, List<Axis> axes, Viewer viewer) {
        List<Factor> factors = Axis.factors(axes);
        return Counting.of(cases.tally(cut, selection, factors), activity.tally(cut, selection, factors), axes, viewer);
    }

    private DataCut cut(ReportScope scope, Viewer viewer) {
        scope.selection().centres().forEach(centre -> centres.require(centre, viewer));
        return revisions.cut(scope.asOf());
    }
}
