package entrapment.registry.reports.question;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Method;
import entrapment.registry.vocabulary.Filters;
import java.util.ArrayList;
import java.util.List;

/**
 * What every report says of itself.
 *
 * @param report its name in the path
 * @param question what it answers, in words
 * @param dataCut the state of the registry it was taken from
 * @param filters the filters in force
 * @param by what it is split by
 * @param confidence the level of every interval
 * @param method how the figures were computed, with citation
 */
public record ReportHeading(
        String report,
        String question,
        DataCut dataCut,
        Filters filters,
        List<String> by,
        Confidence confidence,
        Method method) {

    /** To be said wherever a figure of the registry is seen. */
    public static final List<String> CAUTIONS = List.of(
            "Retrospective registry data: associations in recorded cases, not proof of cause.",
            "Not advice during a procedure: local protocols, the device's instructions for use and the licensed operator"
                    + " decide.",
            "Small numbers mislead: read the counts and the interval, not the estimate alone.");

    /** Of a query that filters by nothing but its scope. */
    public static ReportHeading of(
            String report, String question, DataCut cut, ReportScope scope, List<String> by, Method method) {
        return new ReportHeading(report, question, cut, scope.filters(), by, scope.confidence(), method);
    }

    /** The report for people: its question, the answer in a sentence, what shows it, and how it was computed. */
    public Answer answer(String sentence, List<Exhibit> exhibits, List<Note> notes) {
        return new Answer(
                report,
                question,
                Words.sentence(sentence),
                exhibits,
                notes.stream().map(Note::forPeople).toList(),
                CAUTIONS,
                new Answer.Basis(
                        method.name(),
                        method.citation(),
                        dataCut.revision(),
                        dataCut.at(),
                        filters,
                        confidence.level()));
    }

    /** The heading, notes and cautions as comment lines of a table. */
    List<String> comments(List<Note> notes) {
        List<String> comments = new ArrayList<>();
        comments.add(" " + question);
        comments.add(" data cut: revision " + dataCut.revision() + (dataCut.at() == null ? "" : ", " + dataCut.at()));
        comments.add(" filters: " + (filters.isEmpty() ? "none" : filters.byName()));
        comments.add(" method: " + method.name() + " (" + method.citation() + ")");
        notes.forEach(note -> comments.add(" note: " + note.forPrograms()));
        CAUTIONS.forEach(caution -> comments.add(" caution: " + caution));
        return comments;
    }
}
