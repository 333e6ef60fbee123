package entrapment.registry.reports.question;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * One question that the registry answers. All that is known of it follows from here: how its query is read and refused, its
 * form, its place in the menu, and the paths of its JSON, CSV, slides and page.
 *
 * @param <Q> what is asked
 * @param <E> what the database counted for it
 * @param <R> the answer
 */
public abstract class Question<Q extends ReportQuery, E, R extends Report> {

    /** The answer: a function of the query and the counts alone. */
    @FunctionalInterface
    protected interface Answering<Q, E, R> {

        R answer(Q query, DataCut cut, E counted);
    }

    private final String name;
    private final Answering<Q, E, R> answering;
    private final List<Parameter<?>> own;

    /**
     * @param name the last part of its paths, and of the keys of its texts
     * @param answering how the answer follows from the counts
     * @param own its parameters beside those of {@link ReportScope}, in the order of its form
     */
    protected Question(String name, Answering<Q, E, R> answering, Parameter<?>... own) {
        this.name = name;
        this.answering = answering;
        this.own = List.of(own);
    }

    public final String name() {
        return name;
    }

    /** Its parameters beside those that every question has. */
    public final List<Parameter<?>> ownParameters() {
        return own;
    }

    /** All of its parameters. */
    public final List<Parameter<?>> parameters() {
        return Stream.concat(ReportScope.PARAMETERS.stream(), own.stream()).toList();
    }

    /** What its page asks before anybody has chosen anything. */
    public Map<String, List<String>> atFirst() {
        return Map.of();
    }

    /** Reads a query as it stands in a URL; whatever is wrong with it comes back at once. */
    public final Reading<Q> read(Map<String, List<String>> given, Viewer viewer) {
        return Parameters.read(given, parameters -> {
            ReportScope scope = ReportScope.read(parameters, viewer);
            Map<Parameter<?>, Object> values = new LinkedHashMap<>();
            own.forEach(parameter -> values.put(parameter, parameter.read(parameters)));
            return query(scope, new Asked(values, parameters));
        });
    }

    /** Makes a query of what was read. */
    protected abstract Q query(ReportScope scope, Asked asked);

    /** Lets the database count what the answer needs: a few hundred rows, however large the registry. */
    public abstract E count(Q query, DataCut cut);

    /** The answer to a query, from what was counted for it. */
    public final R answer(Q query, DataCut cut, E counted) {
        return answering.answer(query, cut, counted);
    }
}
