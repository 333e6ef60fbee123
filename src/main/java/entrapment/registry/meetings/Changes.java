package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What changed between two data cuts of a meeting: why, and which figures.
 *
 * @param figures every cell of every table that reads otherwise
 */
public record Changes(DataCut from, DataCut to, Reasons reasons, List<FigureChange> figures, String sentence) {

    /**
     * What was sent between the two.
     *
     * @param newCases cases that were not there
     * @param corrections cases of which there is another version, or that moved into or out of the periods
     * @param withdrawals cases that were taken back
     * @param lateReturns returns of periods that had none
     * @param changedReturns returns of which there is another version
     */
    public record Reasons(long newCases, long corrections, long withdrawals, long lateReturns, long changedReturns) {

        boolean none() {
            return newCases + corrections + withdrawals + lateReturns + changedReturns == 0;
        }

        String words() {
            return "%d new cases, %d corrections, %d withdrawals, %d late returns, %d changed returns"
                    .formatted(newCases, corrections, withdrawals, lateReturns, changedReturns);
        }
    }

    /**
     * One figure.
     *
     * @param answer the question it answers
     * @param row the row of its table
     * @param before as people read it; null where there was no such row
     * @param after null where there is none any more
     */
    public record FigureChange(
            String answer,
            String exhibit,
            String row,
            String column,
            @Nullable String before,
            @Nullable String after) {}

    private record Place(String answer, String exhibit, String row, String column, int index) {}

    static Changes of(DataCut from, DataCut to, Reasons reasons, List<Answer> before, List<Answer> after) {
        Map<Place, String> old = cells(before);
        Map<Place, String> now = cells(after);
        Set<Place> places = new LinkedHashSet<>(old.keySet());
        places.addAll(now.keySet());
        List<FigureChange> figures = places.stream()
                .filter(place -> !Objects.equals(old.get(place), now.get(place)))
                .map(place -> new FigureChange(
                        place.answer(), place.exhibit(), place.row(), place.column(), old.get(place), now.get(place)))
                .toList();
        return new Changes(from, to, reasons, figures, sentence(from, to, reasons, figures.size()));
    }

    private static String sentence(DataCut from, DataCut to, Reasons reasons, int figures) {
        String cuts = "Between revision %d and revision %d: ".formatted(from.revision(), to.revision());
        String sent = reasons.none() ? "nothing of this meeting's periods was sent" : reasons.words();
        return cuts + sent + "; " + (figures == 1 ? "1 figure changed." : figures + " figures changed.");
    }

    /** A row is known by the texts in front of its first number; a second one of the same texts by its place. */
    private static Map<Place, String> cells(List<Answer> answers) {
        Map<Place, String> cells = new LinkedHashMap<>();
        for (Answer answer : answers) {
            for (Exhibit exhibit : answer.exhibits()) {
                Map<String, Integer> seen = new LinkedHashMap<>();
                for (List<@Nullable Object> row : exhibit.rows()) {
                    String texts = texts(exhibit.columns(), row);
                    int times = seen.merge(texts, 1, Integer::sum);
                    String name = times == 1 ? texts : texts + " (" + times + ")";
                    for (int index = 0; index < row.size(); index++) {
                        Column column = exhibit.columns().get(index);
                        if (column.isNumber()) {
                            cells.put(
                                    new Place(answer.question(), exhibit.title(), name, column.heading(), index),
                                    column.text(row.get(index)));
                        }
                    }
                }
            }
        }
        return cells;
    }

    private static String texts(List<Column> columns, List<@Nullable Object> row) {
        List<String> texts = new ArrayList<>();
        for (int index = 0; index < row.size() && !columns.get(index).isNumber(); index++) {
            texts.add(columns.get(index).text(row.get(index)));
        }
        return String.join(", ", texts);
    }
}
