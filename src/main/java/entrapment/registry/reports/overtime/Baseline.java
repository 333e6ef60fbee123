package entrapment.registry.reports.overtime;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.overtime.UseSequence.Quarter;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * The rate that later data are held against.
 *
 * @param rate a proportion in (0, 1)
 * @param interval of the rate; no limits where it was given
 * @param watched the periods after it
 * @param note where it comes from
 */
record Baseline(double rate, Interval interval, List<Quarter> watched, Note note) {

    /** Fewer events make a baseline too uncertain to hold anything against (statistics, section 14). */
    private static final long FEWEST_EVENTS = 10;

    /** The baseline that was asked for, or the earliest year or longer (four quarters) that holds ten events. */
    static Optional<Baseline> of(OverTimeQuery query, List<Quarter> quarters) {
        Double given = query.baseline();
        if (given != null) {
            return Optional.of(new Baseline(
                    given,
                    Interval.NOT_ESTIMABLE,
                    quarters,
                    Note.of(Drawing.BASELINE_GIVEN, NumberText.perThousand(given))));
        }
        int from = IntStream.range(0, quarters.size())
                .filter(index -> query.baselineFrom() == null
                        || quarters.get(index).period().compareTo(query.baselineFrom()) >= 0)
                .findFirst()
                .orElse(quarters.size());
        long events = 0;
        long uses = 0;
        for (int index = from; index < quarters.size(); index++) {
            Quarter quarter = quarters.get(index);
            if (query.baselineTo() != null && quarter.period().compareTo(query.baselineTo()) > 0) {
                break;
            }
            events += quarter.events();
            uses += quarter.uses();
            boolean asked = query.baselineTo() != null
                    && (index + 1 == quarters.size()
                            || quarters.get(index + 1).period().compareTo(query.baselineTo()) > 0);
            boolean enough = query.baselineTo() == null
                    && index - from + 1 >= quarter.period().resolution().perYear();
            if ((asked || enough) && events >= FEWEST_EVENTS && events < uses) {
                return Optional.of(of(
                        new Proportion(events, uses),
                        query.scope().confidence(),
                        span(quarters.get(from).period(), quarter.period()),
                        quarters.subList(index + 1, quarters.size())));
            }
        }
        return Optional.empty();
    }

    private static Baseline of(Proportion counts, Confidence confidence, String span, List<Quarter> watched) {
        double rate = (double) counts.events() / counts.of();
        Interval interval = counts.interval(IntervalMethod.WILSON, confidence);
        return new Baseline(
                rate,
                interval,
                watched,
                Note.of(
                        Drawing.BASELINE,
                        span,
                        Words.entrapments(counts.events()),
                        Words.uses(counts.of()),
                        NumberText.perThousand(rate),
                        NumberText.level(confidence.level()),
                        NumberText.perThousand(Objects.requireNonNull(interval.lower())),
                        NumberText.perThousand(Objects.requireNonNull(interval.upper()))));
    }

    private static String span(Period first, Period last) {
        return first.equals(last) ? first.toString() : first + " to " + last;
    }
}
