package entrapment.registry.reports;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.UseSequence.Quarter;
import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The rate that later data are held against.
 *
 * @param rate a proportion in (0, 1)
 * @param events of the baseline; null where the rate was given
 * @param uses of the baseline; null where the rate was given
 * @param watched the periods after it
 * @param words where it comes from
 */
record Baseline(
        double rate, @Nullable Long events, @Nullable Long uses, List<Quarter> watched, String words) {

    /** Fewer events make a baseline too uncertain to hold anything against (statistics, section 14). */
    private static final long FEWEST_EVENTS = 10;

    /** The baseline that was asked for, or the earliest year or longer (four quarters) that holds ten events. */
    static Optional<Baseline> of(OverTimeQuery query, List<Quarter> quarters) {
        Double given = query.baseline();
        if (given != null) {
            return Optional.of(new Baseline(
                    given,
                    null,
                    null,
                    quarters,
                    "The baseline of " + NumberText.perThousand(given) + " per 1,000 was given."));
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
                return Optional.of(new Baseline(
                        (double) events / uses,
                        events,
                        uses,
                        quarters.subList(index + 1, quarters.size()),
                        "The baseline is %s: %s in %s, %s per 1,000; it is frozen, so later data do not move it."
                                .formatted(
                                        span(quarters.get(from).period(), quarter.period()),
                                        Words.entrapments(events),
                                        Words.uses(uses),
                                        NumberText.perThousand((double) events / uses))));
            }
        }
        return Optional.empty();
    }

    private static String span(Period first, Period last) {
        return first.equals(last) ? first.toString() : first + " to " + last;
    }
}
