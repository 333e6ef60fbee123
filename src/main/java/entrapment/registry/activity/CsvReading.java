package entrapment.registry.activity;

import entrapment.registry.intake.FieldError;
import java.util.List;
import java.util.Optional;

/**
 * A return as CSV was read.
 *
 * @param value empty where a row was refused: half a return would make wrong denominators
 * @param received rows read
 */
public record CsvReading(Optional<ActivityReturn> value, long received, List<RefusedRow> refusedRows) {

    /** A row that broke a rule, with the line it starts on, counted from 1, header included. */
    public record RefusedRow(long line, List<FieldError> errors) {}
}
