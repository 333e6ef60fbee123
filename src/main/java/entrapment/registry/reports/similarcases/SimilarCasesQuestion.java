package entrapment.registry.reports.similarcases;

import entrapment.registry.access.DataCut;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.LikeCases;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.cases.RetrievalTally;
import entrapment.registry.cases.SequenceTally;
import entrapment.registry.reports.question.Asked;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.similarcases.SimilarCasesReport.Loosening;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/** What was done, and with what result, in cases like this? */
@Component
@Order(9)
public class SimilarCasesQuestion
        extends Question<SimilarCasesQuery, SimilarCasesQuestion.Evidence, SimilarCasesReport> {

    private static final List<Parameter<List<String>>> LEAVES = PartialCase.LEAVES.stream()
            .flatMap(leaf -> Field.of(leaf).stream())
            .map(Parameter::field)
            .toList();

    /**
     * What the database counted.
     *
     * @param like how many cases are like this one
     * @param retrieval of the cases that are described, as all that follow
     * @param without with no like case, how many there are without each of the filters
     */
    record Evidence(
            LikeCases like,
            List<RetrievalTally> retrieval,
            List<SequenceTally> sequences,
            SortedMap<Long, Long> minutes,
            List<OutcomeTally> outcomes,
            List<Loosening> without) {}

    private final Cases cases;

    SimilarCasesQuestion(Cases cases) {
        super("similar-cases", SimilarCasesReport::of, LEAVES.toArray(Parameter<?>[]::new));
        this.cases = cases;
    }

    @Override
    protected SimilarCasesQuery query(ReportScope scope, Asked asked) {
        Map<String, List<String>> leaves = new LinkedHashMap<>();
        for (Parameter<List<String>> leaf : LEAVES) {
            List<String> codes = asked.get(leaf);
            if (!codes.isEmpty()) {
                leaves.put(leaf.name(), codes);
            }
        }
        return new SimilarCasesQuery(scope, leaves);
    }

    @Override
    public Evidence count(SimilarCasesQuery query, DataCut cut) {
        String own = query.scope().viewer().centre();
        LikeCases like = cases.count(cut, query.like(), own);
        PartialCase described = own != null && SimilarCasesReport.describesOwnAlone(like)
                ? query.like().at(own)
                : query.like();
        List<Loosening> without = new ArrayList<>();
        if (like.all() == 0) {
            for (String filter : query.loosenable()) {
                without.add(new Loosening(
                        filter,
                        cases.count(cut, query.like().without(filter), own).all()));
            }
        }
        return new Evidence(
                like,
                cases.retrieval(cut, described, List.of()),
                cases.sequences(cut, described, own),
                cases.minutesToRelease(cut, described),
                cases.outcomes(cut, described, List.of()),
                without);
    }
}
