package entrapment.registry.releases;

import entrapment.registry.releases.Sum.Measure;
import entrapment.registry.reports.YearlyCount;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What a reader of the releases does not know: whole numbers ≥ 0 of which everything that is printed is a sum.
 *
 * <p>They are: events of each device class and year; uses without an event of each device class and year; events of each
 * device class, degree of harm and span of years. A span is what one release added to those before it: degrees of harm are
 * printed for all years of a release together, so two releases tell apart no more than spans. The events of a class in a
 * span are the same events whether they are counted by year or by harm; these are the only ties between the unknowns.
 * Nothing is lost by not looking at class, year and harm at once: any two such margins that agree have a whole table.
 *
 * @param deviceClasses codes, in order
 * @param harms codes, in order
 * @param firstYear the first year of the first release
 * @param throughYears the last year of each release, ascending, no two alike
 */
record Unknowns(List<String> deviceClasses, List<String> harms, int firstYear, List<Integer> throughYears) {

    Unknowns {
        deviceClasses = List.copyOf(deviceClasses);
        harms = List.copyOf(harms);
        throughYears = List.copyOf(throughYears);
    }

    private int years() {
        return throughYears.get(throughYears.size() - 1) - firstYear + 1;
    }

    /** How many there are. */
    int size() {
        return deviceClasses.size() * (2 * years() + throughYears.size() * harms.size());
    }

    private int events(int deviceClass, int year) {
        return deviceClass * years() + (year - firstYear);
    }

    private int spared(int deviceClass, int year) {
        return deviceClasses.size() * years() + events(deviceClass, year);
    }

    private int harmed(int deviceClass, int span, int harm) {
        return 2 * deviceClasses.size() * years() + (deviceClass * throughYears.size() + span) * harms.size() + harm;
    }

    /** The first year of each span. */
    int firstYearOf(int span) {
        return span == 0 ? firstYear : throughYears.get(span - 1) + 1;
    }

    /** The span that a year lies in. */
    int spanOf(int year) {
        int span = 0;
        while (throughYears.get(span) < year) {
            span++;
        }
        return span;
    }

    /**
     * The unknowns that add up to a sum.
     *
     * @throws IllegalArgumentException if it speaks of harm in years that are not whole spans
     */
    int[] of(Sum sum) {
        List<Integer> members = new ArrayList<>();
        for (int deviceClass = 0; deviceClass < deviceClasses.size(); deviceClass++) {
            if (sum.deviceClass() != null && !deviceClasses.get(deviceClass).equals(sum.deviceClass())) {
                continue;
            }
            if (sum.harm() != null) {
                addHarm(sum, deviceClass, members);
                continue;
            }
            for (int year = sum.firstYear(); year <= sum.lastYear(); year++) {
                if (sum.measure() != Measure.SPARED) {
                    members.add(events(deviceClass, year));
                }
                if (sum.measure() != Measure.EVENTS) {
                    members.add(spared(deviceClass, year));
                }
            }
        }
        return members.stream().mapToInt(Integer::intValue).toArray();
    }

    private void addHarm(Sum sum, int deviceClass, List<Integer> members) {
        int first = spanOf(sum.firstYear());
        int last = spanOf(sum.lastYear());
        if (firstYearOf(first) != sum.firstYear() || throughYears.get(last) != sum.lastYear()) {
            throw new IllegalArgumentException(
                    "harm must be asked for in whole spans of years, got " + sum.firstYear() + " to " + sum.lastYear());
        }
        for (int span = first; span <= last; span++) {
            members.add(harmed(deviceClass, span, harms.indexOf(sum.harm())));
        }
    }

    /** The ties: for each device class and span, events by year and events by harm have the same sum. */
    List<Equation> ties() {
        List<Equation> ties = new ArrayList<>();
        for (int deviceClass = 0; deviceClass < deviceClasses.size(); deviceClass++) {
            for (int span = 0; span < throughYears.size(); span++) {
                int fixedClass = deviceClass;
                int fixedSpan = span;
                ties.add(new Equation(
                        IntStream.rangeClosed(firstYearOf(span), throughYears.get(span))
                                .map(year -> events(fixedClass, year))
                                .toArray(),
                        IntStream.range(0, harms.size())
                                .map(harm -> harmed(fixedClass, fixedSpan, harm))
                                .toArray(),
                        0,
                        null));
            }
        }
        return ties;
    }

    /** What the unknowns are in truth. */
    long[] truth(List<YearlyCount> counts) {
        long[] truth = new long[size()];
        for (YearlyCount count : counts) {
            int deviceClass = deviceClasses.indexOf(count.deviceClass());
            truth[events(deviceClass, count.year())] += count.events();
            truth[spared(deviceClass, count.year())] += count.uses() - count.events();
            count.harm()
                    .forEach((harm, number) ->
                            truth[harmed(deviceClass, spanOf(count.year()), harms.indexOf(harm))] += number);
        }
        return truth;
    }

    /** A sum over given values of the unknowns. */
    long value(Sum sum, long[] values) {
        return Arrays.stream(of(sum)).mapToLong(member -> values[member]).sum();
    }
}
