package entrapment.registry.reports.overtime;

import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.LongStream;

/**
 * Uses and events in the order of time. The registry knows the period of an event, not the day (privacy), so the events
 * of a period are placed evenly among its uses. Periods are quarters, unless the network keeps years.
 */
record UseSequence(List<Quarter> quarters) {

    UseSequence {
        quarters = List.copyOf(quarters);
    }

    /** Events and uses of one period; at most as many events as uses. */
    record Quarter(Period period, long events, long uses) {

        Quarter {
            if (events < 0 || events > uses) {
                throw new IllegalArgumentException("events must be in [0, " + uses + "], got " + events);
            }
        }

        /** The place of the event of this number (from 0) among the period's uses, from 0. */
        long place(long event) {
            return (2 * event + 1) * uses / (2 * events);
        }

        /** How many events lie among the first uses of the period. */
        long eventsUpTo(long first) {
            return LongStream.range(0, events)
                    .filter(event -> place(event) < first)
                    .count();
        }
    }

    long events() {
        return quarters.stream().mapToLong(Quarter::events).sum();
    }

    long uses() {
        return quarters.stream().mapToLong(Quarter::uses).sum();
    }

    double usesPerYear() {
        return quarters.isEmpty()
                ? 0
                : (double) uses() * quarters.get(0).period().resolution().perYear() / quarters.size();
    }

    /** An event with the uneventful uses since the one before; of the first event the gap is open to the left. */
    record Gap(Period period, long event, long uses) {}

    /** The gaps between consecutive events, in order. */
    List<Gap> gaps() {
        List<Gap> gaps = new ArrayList<>();
        long before = 0;
        long last = -1;
        long number = 0;
        for (Quarter quarter : quarters) {
            for (long event = 0; event < quarter.events(); event++) {
                long place = before + quarter.place(event);
                number++;
                if (last >= 0) {
                    gaps.add(new Gap(quarter.period(), number, place - last - 1));
                }
                last = place;
            }
            before += quarter.uses();
        }
        return gaps;
    }

    /** Uses since the last event, or all of them where there was none. */
    long openGap() {
        long since = 0;
        for (Quarter quarter : quarters) {
            since = quarter.events() > 0
                    ? quarter.uses() - 1 - quarter.place(quarter.events() - 1)
                    : since + quarter.uses();
        }
        return since;
    }

    /** Every use in order, true for an event. */
    List<Boolean> outcomes() {
        List<Boolean> outcomes = new ArrayList<>();
        for (Quarter quarter : quarters) {
            long next = 0;
            for (long use = 0; use < quarter.uses(); use++) {
                boolean event = next < quarter.events() && quarter.place(next) == use;
                outcomes.add(event);
                next += event ? 1 : 0;
            }
        }
        return outcomes;
    }
}
