package entrapment.registry.reports;

import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.LikeCases;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
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

    /** To be said wherever a figure of the registry is seen. */
    public static final List<String> CAUTIONS = ReportHeading.CAUTIONS;

    private final Cases cases;
    private final Activity activity;
    private final Revisions revisions;
    private final Centres centres;
    private final Settings settings;

    Reports(Cases cases, Activity activity, Revisions revisions, Centres centres, Settings settings) {
        this.cases = cases;
        this.activity = activity;
        this.revisions = revisions;
        this.centres = centres;
        this.settings = settings;
    }

    /**
     * Answers any question by the name of its report, for whoever does not care which it is.
     *
     * @param given the query as it stands in a URL
     */
    public Report ask(String name, Map<String, List<String>> given, Viewer viewer) {
        return switch (name) {
            case "incidence" -> incidence(IncidenceQuery.of(given, viewer).orRefuse(), viewer);
            case "retrieval" -> retrieval(RetrievalQuery.of(given, viewer).orRefuse(), viewer);
            case "risk-factors" ->
                riskFactors(RiskFactorsQuery.of(given, viewer).orRefuse(), viewer);
            case "over-time" -> overTime(OverTimeQuery.of(given, viewer).orRefuse(), viewer);
            case "between-centres" ->
                betweenCentres(BetweenCentresQuery.of(given, viewer).orRefuse(), viewer);
            case "harm" -> harm(HarmQuery.of(given, viewer).orRefuse(), viewer);
            case "completeness" ->
                completeness(CompletenessQuery.of(given, viewer).orRefuse(), viewer);
            case "similar-cases" ->
                similarCases(SimilarCasesQuery.of(given, viewer).orRefuse(), viewer);
            case "pooled" -> pooled(PooledQuery.of(given, viewer).orRefuse(), viewer);
            case "planning" -> planning(PlanningQuery.of(given, viewer).orRefuse(), viewer);
            default -> throw Problem.NOT_FOUND.refusal("There is no report of this name.");
        };
    }

    /** What to see first: headlines of the last periods, and what needs attention. */
    public Overview overview(Viewer viewer) {
        Map<String, List<String>> own = viewer.centre() == null ? Map.of() : Map.of("centre", List.of(viewer.centre()));
        IncidenceReport byPeriod =
                incidence(IncidenceQuery.of(and(own, "by", "period"), viewer).orRefuse(), viewer);
        List<String> periods = Overview.lastPeriods(byPeriod);
        String from = periods.isEmpty() ? null : periods.get(0);
        String to = periods.isEmpty() ? null : periods.get(periods.size() - 1);
        Map<String, List<String>> lately = from == null || to == null ? own : and(and(own, "from", from), "to", to);
        return new Overview(
                byPeriod.heading().dataCut(),
                from,
                to,
                Overview.headlines(
                        incidence(IncidenceQuery.of(lately, viewer).orRefuse(), viewer),
                        retrieval(RetrievalQuery.of(lately, viewer).orRefuse(), viewer),
                        harm(HarmQuery.of(lately, viewer).orRefuse(), viewer)),
                Overview.attention(
                        List.of(
                                overTime(OverTimeQuery.of(own, viewer).orRefuse(), viewer),
                                overTime(
                                        OverTimeQuery.of(and(own, "chart", "cusum"), viewer)
                                                .orRefuse(),
                                        viewer)),
                        completeness(CompletenessQuery.of(own, viewer).orRefuse(), viewer)));
    }

    private static Map<String, List<String>> and(Map<String, List<String>> given, String name, String value) {
        Map<String, List<String>> more = new LinkedHashMap<>(given);
        more.put(name, List.of(value));
        return more;
    }

    /** How often is a device entrapped? */
    public IncidenceReport incidence(IncidenceQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return IncidenceReport.of(
                query, cut, count(cut, query.scope().selection(), query.by(), GroupBy.masking(viewer)));
    }

    /** Which way out works, and how well as the first try? */
    public RetrievalReport retrieval(RetrievalQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return RetrievalReport.of(
                query, cut, cases.retrieval(cut, PartialCase.of(query.scope().selection()), query.by()));
    }

    /** What raises the odds? */
    public Report riskFactors(RiskFactorsQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        Selection selection = query.scope().selection();
        if (query.model() == RiskFactorsQuery.Model.ADJUSTED) {
            List<GroupBy> axes = join(query.factors().stream().map(GroupBy::of).toList(), List.of(GroupBy.CENTRE));
            return AdjustedRiskFactorsReport.of(query, cut, count(cut, selection, axes, UnaryOperator.identity()));
        }
        Map<Factor, Counting> countings = countEach(cut, selection, query.factors(), query.stratifyBy());
        return query.model() == RiskFactorsQuery.Model.STRATIFIED
                ? StratifiedRiskFactorsReport.of(query, cut, countings)
                : RiskFactorsReport.of(query, cut, countings);
    }

    /** Is it changing? */
    public OverTimeReport overTime(OverTimeQuery query, Viewer viewer) {
        settings.requireResolution(query.baselinePeriods());
        DataCut cut = cut(query.scope(), viewer);
        return OverTimeReport.of(
                query, cut, count(cut, query.scope().selection(), List.of(GroupBy.PERIOD), UnaryOperator.identity()));
    }

    /** Are we different, beyond chance? */
    public BetweenCentresReport betweenCentres(BetweenCentresQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return BetweenCentresReport.of(
                query,
                cut,
                count(
                        cut,
                        query.scope().selection(),
                        join(List.of(GroupBy.CENTRE), query.adjustFor()),
                        UnaryOperator.identity()),
                viewer,
                settings.smallestCount());
    }

    /** What is the rate in a typical centre, and how far might a further one be from it? */
    public PooledReport pooled(PooledQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return PooledReport.of(
                query,
                cut,
                count(
                        cut,
                        query.scope().selection(),
                        join(query.by(), List.of(GroupBy.CENTRE)),
                        UnaryOperator.identity()));
    }

    /** How long until we could tell? */
    public PlanningReport planning(PlanningQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        return PlanningReport.of(
                query,
                cut,
                count(
                        cut,
                        query.scope().selection(),
                        join(query.by(), List.of(GroupBy.PERIOD)),
                        UnaryOperator.identity()));
    }

    /** What does it cost the patient? */
    public HarmReport harm(HarmQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        PartialCase like = PartialCase.of(query.scope().selection());
        return HarmReport.of(query, cut, cases.outcomes(cut, like, GroupBy.factors(query.by())), viewer);
    }

    /** Can we trust the numbers? */
    public CompletenessReport completeness(CompletenessQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        Selection asked = query.scope().selection();
        Selection counted = new Selection(viewer.sees(List.of()), asked.from(), asked.to(), asked.levels());
        centres.require(counted.centres(), viewer);
        Selection everyPeriod = new Selection(asked.centres(), null, null, Map.of());
        CompletenessReport.Evidence evidence = new CompletenessReport.Evidence(
                cases.completeness(cut, asked),
                cases.tally(cut, counted, List.of()),
                activity.tally(cut, counted, List.of()),
                cases.tally(cut, everyPeriod, List.of()),
                activity.returns(cut, asked.centres()));
        return CompletenessReport.of(query, cut, evidence, viewer);
    }

    /** What was done, and with what result, in cases like this? */
    public SimilarCasesReport similarCases(SimilarCasesQuery query, Viewer viewer) {
        DataCut cut = cut(query.scope(), viewer);
        String own = viewer.centre();
        LikeCases like = cases.count(cut, query.like(), own);
        PartialCase described = own != null && SimilarCasesReport.describesOwnAlone(like)
                ? query.like().at(own)
                : query.like();
        SimilarCasesReport.Evidence evidence = new SimilarCasesReport.Evidence(
                cases.retrieval(cut, described, List.of()),
                cases.sequences(cut, described, own),
                cases.minutesToRelease(cut, described),
                cases.outcomes(cut, described, List.of()));
        List<SimilarCasesReport.Loosening> without = new ArrayList<>();
        if (like.all() == 0) {
            for (String filter : query.loosenable()) {
                long found = cases.count(cut, query.like().without(filter), own).all();
                without.add(new SimilarCasesReport.Loosening(filter, found));
            }
        }
        return SimilarCasesReport.of(query, cut, like, evidence, without);
    }

    /**
     * What the network counted in whole calendar years, by device class, year and harm, as of a cut; for the steward alone.
     *
     * @param first the first of the years; null for the first that the registry has
     */
    public List<YearlyCount> yearly(DataCut cut, @Nullable Integer first, int last, Viewer viewer) {
        viewer.requireSteward();
        Selection years =
                new Selection(List.of(), first == null ? null : new Period(first, 1), new Period(last, 4), Map.of());
        return YearlyCount.of(
                cases.tally(cut, years, List.of()),
                activity.tally(cut, years, List.of()),
                cases.outcomes(cut, PartialCase.of(years), List.of()));
    }

    private static List<GroupBy> join(List<GroupBy> first, List<GroupBy> then) {
        return Stream.concat(first.stream(), then.stream()).toList();
    }

    /** Strata and models need every centre apart; no centre's name leaves them. */
    private Counting count(DataCut cut, Selection selection, List<GroupBy> axes, UnaryOperator<String> centreName) {
        List<Factor> factors = GroupBy.factors(axes);
        return Counting.of(
                cases.tally(cut, selection, factors), activity.tally(cut, selection, factors), axes, centreName);
    }

    /** Each factor by itself, within the same strata. */
    private Map<Factor, Counting> countEach(DataCut cut, Selection selection, List<Factor> each, List<GroupBy> strata) {
        if (each.isEmpty()) {
            return Map.of();
        }
        List<List<GroupBy>> axes = each.stream()
                .map(factor -> join(List.of(GroupBy.of(factor)), strata))
                .toList();
        List<List<Factor>> by = axes.stream().map(GroupBy::factors).toList();
        List<List<Tally>> events = cases.tallies(cut, selection, by);
        List<List<Tally>> uses = activity.tallies(cut, selection, by);
        Map<Factor, Counting> countings = new LinkedHashMap<>();
        for (int index = 0; index < each.size(); index++) {
            countings.put(
                    each.get(index),
                    Counting.of(events.get(index), uses.get(index), axes.get(index), UnaryOperator.identity()));
        }
        return countings;
    }

    private DataCut cut(ReportScope scope, Viewer viewer) {
        centres.require(scope.selection().centres(), viewer);
        settings.requireResolution(scope.periods());
        return revisions.cut(scope.asOf());
    }
}
