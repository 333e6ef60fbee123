package entrapment.registry.reports;

import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;

/**
 * The questions of the registry and their answers. Each answer fixes a data cut, lets the database count events and uses as
 * of that cut, and leaves the rest to a pure function: the same question as of the same revision has the same answer for
 * ever.
 */
@Component
@Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
public class Reports {

    /** To be said wherever a figure of the registry is seen. */
    public static final List<String> CAUTIONS = ReportHeading.CAUTIONS;

    private final List<Question<?, ?, ?>> questions;
    private final Cases cases;
    private final Activity activity;
    private final Revisions revisions;
    private final Centres centres;
    private final Settings settings;

    Reports(
            List<Question<?, ?, ?>> questions,
            Cases cases,
            Activity activity,
            Revisions revisions,
            Centres centres,
            Settings settings) {
        this.questions = List.copyOf(questions);
        this.cases = cases;
        this.activity = activity;
        this.revisions = revisions;
        this.centres = centres;
        this.settings = settings;
    }

    /** Every question, in the order of the menu. */
    public List<Question<?, ?, ?>> questions() {
        return questions;
    }

    /** The question of this name. */
    public Question<?, ?, ?> question(String name) {
        Optional<Question<?, ?, ?>> found =
                questions.stream().filter(each -> each.name().equals(name)).findFirst();
        return found.orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no report of this name."));
    }

    /**
     * Answers the question of a name, for whoever does not care which it is.
     *
     * @param given the query as it stands in a URL
     */
    public Report ask(String name, Map<String, List<String>> given, Viewer viewer) {
        return ask(question(name), given, viewer);
    }

    private <Q extends ReportQuery> Report ask(
            Question<Q, ?, ?> question, Map<String, List<String>> given, Viewer viewer) {
        return ask(question, question.read(given, viewer).orRefuse());
    }

    /** Answers a question. */
    public <Q extends ReportQuery, E, R extends Report> R ask(Question<Q, E, R> question, Q query) {
        centres.require(query.scope().selection().centres(), query.scope().viewer());
        settings.requireResolution(query.periods());
        DataCut cut = revisions.cut(query.scope().asOf());
        return question.answer(query, cut, question.count(query, cut));
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
}
