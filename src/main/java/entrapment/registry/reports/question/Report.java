package entrapment.registry.reports.question;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Table;
import java.util.List;

/** An answer that JSON prints as it is, that people read, and that other programs read as a table. */
@JsonPropertyOrder("heading")
public interface Report {

    /** What it says of itself. */
    ReportHeading heading();

    /** What the reader must know of the figures. */
    List<Note> notes();

    /** What stands wherever a figure is seen. */
    @JsonProperty("cautions")
    default List<String> cautions() {
        return ReportHeading.CAUTIONS;
    }

    /** The same figures for people: sentence, figure and table. */
    Answer answer();

    /** The same figures as rows for other programs. */
    Table table();
}
