package entrapment.registry.reports.question;

import entrapment.registry.access.DataCut;
import entrapment.registry.activity.Activity;
import entrapment.registry.cases.Cases;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** Asks for events and uses alike, and brings them together. */
@Component
public class Tallies {

    private final Cases cases;
    private final Activity activity;

    Tallies(Cases cases, Activity activity) {
        this.cases = cases;
        this.activity = activity;
    }

    /** By what was asked for, with the centres that the viewer may not see as one. */
    public Counting masked(DataCut cut, ReportScope scope, List<GroupBy> by) {
        return count(cut, scope.selection(), by, GroupBy.masking(scope.viewer()));
    }

    /** By what was asked for, every centre apart, as strata and models need them; no centre's name leaves these. */
    public Counting apart(DataCut cut, ReportScope scope, List<GroupBy> first, GroupBy... then) {
        return count(
                cut,
                scope.selection(),
                Stream.concat(first.stream(), Stream.of(then)).toList(),
                UnaryOperator.identity());
    }

    private Counting count(DataCut cut, Selection selection, List<GroupBy> by, UnaryOperator<String> centreName) {
        List<Factor> factors = GroupBy.factors(by);
        return Counting.of(
                cases.tally(cut, selection, factors), activity.tally(cut, selection, factors), by, centreName);
    }

    /** Each factor by itself, within the same strata; every centre apart. */
    public List<Counting> each(DataCut cut, ReportScope scope, List<Factor> factors, List<GroupBy> strata) {
        if (factors.isEmpty()) {
            return List.of();
        }
        List<List<GroupBy>> by = factors.stream()
                .map(factor -> Stream.concat(Stream.of(GroupBy.of(factor)), strata.stream())
                        .toList())
                .toList();
        List<List<Factor>> lists = by.stream().map(GroupBy::factors).toList();
        List<List<Tally>> events = cases.tallies(cut, scope.selection(), lists);
        List<List<Tally>> uses = activity.tallies(cut, scope.selection(), lists);
        List<Counting> countings = new ArrayList<>();
        for (int index = 0; index < by.size(); index++) {
            countings.add(Counting.of(events.get(index), uses.get(index), by.get(index), UnaryOperator.identity()));
        }
        return countings;
    }
}
