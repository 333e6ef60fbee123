package entrapment.registry.reports;

import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * What the network counted of one device class in one calendar year, as the incidence counts it: cells of centre, period and
 * device class whose cases and returns contradict each other are left out, uses, events and their harm alike.
 *
 * @param harm events by degree of harm; every event has one
 */
public record YearlyCount(String deviceClass, int year, long uses, Map<String, Long> harm) {

    public YearlyCount {
        harm = Collections.unmodifiableMap(new TreeMap<>(harm));
    }

    /** The entrapments, never more than the uses. */
    public long events() {
        return harm.values().stream().mapToLong(Long::longValue).sum();
    }

    private record Place(int year, String deviceClass) {}

    private static final Comparator<Place> BY_YEAR =
            Comparator.comparingInt(Place::year).thenComparing(Place::deviceClass);

    /** By year, then by the device class's code; without what has neither uses nor events. */
    static List<YearlyCount> of(List<Tally> events, List<Tally> uses, List<OutcomeTally> outcomes) {
        Set<Cell> discordant = Counting.discordant(events, uses).keySet();
        Map<Place, Long> counted = new TreeMap<>(BY_YEAR);
        for (Tally tally : uses) {
            if (!discordant.contains(tally.cell())) {
                counted.merge(place(tally), tally.count(), Long::sum);
            }
        }
        Map<Place, Map<String, Long>> harm = new TreeMap<>(BY_YEAR);
        for (OutcomeTally outcome : outcomes) {
            if (outcome.field().equals("harm")
                    && !discordant.contains(outcome.tally().cell())) {
                harm.computeIfAbsent(place(outcome.tally()), key -> new TreeMap<>())
                        .merge(outcome.code(), outcome.tally().count(), Long::sum);
            }
        }
        return counted.entrySet().stream()
                .filter(entry -> entry.getValue() > 0)
                .map(entry -> new YearlyCount(
                        entry.getKey().deviceClass(),
                        entry.getKey().year(),
                        entry.getValue(),
                        harm.getOrDefault(entry.getKey(), Map.of())))
                .toList();
    }

    private static Place place(Tally tally) {
        return new Place(tally.period().year(), tally.deviceClass());
    }
}
