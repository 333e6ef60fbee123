package entrapment.registry.meetings;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonProperty;
import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Period;

/**
 * Periods one after another.
 *
 * @param from the first, included
 * @param to the last, included
 */
public record PeriodRange(Period from, Period to) {

    /** Ten years of quarters. */
    private static final int LONGEST = 40;

    /** As it is stored. */
    @JsonCreator
    static PeriodRange of(@JsonProperty("from") String from, @JsonProperty("to") String to) {
        return new PeriodRange(
                Period.parse(from).orElseThrow(), Period.parse(to).orElseThrow());
    }

    /** Reads {@code from} and {@code to}, which must have begun and be in order. */
    static PeriodRange read(Fields fields, Period latest) {
        PeriodRange read = new PeriodRange(fields.period("from", latest), fields.period("to", latest));
        if (!fields.sound("/from") || !fields.sound("/to")) {
            return read;
        }
        if (read.from.compareTo(read.to) > 0) {
            fields.refuse("to", "meeting-period-order", "to must not be before from");
        } else if (read.length() > LONGEST) {
            fields.refuse("to", "too-many-periods", "from and to must be at most " + LONGEST + " periods apart");
        }
        return read;
    }

    /** How many periods, both ends included. */
    int length() {
        int perYear = from.resolution().perYear();
        return (to.year() - from.year()) * perYear + to.quarter() - from.quarter() + 1;
    }

    /** As many periods right before this. */
    PeriodRange before() {
        Period start = from;
        for (int step = 0; step < length(); step++) {
            start = start.previous();
        }
        return new PeriodRange(start, from.previous());
    }

    /** {@code 2026-Q1 to 2026-Q2}, or the one period. */
    public String words() {
        return from.equals(to) ? from.toString() : from + " to " + to;
    }
}
