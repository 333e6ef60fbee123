package entrapment.registry.reports.question;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Table;
import java.util.List;

/** An answer that JSON prints as it is, that people read, and that other programs read as a table. */
public interface Report {

    /** What it says of itself. */
    ReportHeading heading();

    /** What the reader must know of the figures. */
    List<Note> notes();

    /** The same figures for people: sentence, figure and table. */
    Answer answer();

    /** The same figures as rows for other programs. */
    Table table();
}
