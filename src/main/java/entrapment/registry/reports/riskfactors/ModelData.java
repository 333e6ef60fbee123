package entrapment.registry.reports.riskfactors;

import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.stats.CovariatePattern;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.Term;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a model of all factors is fitted to.
 *
 * @param kept groups by the levels of the factors, then by centre, none of them unknown
 */
record ModelData(List<Factor> factors, List<Counting.Group> kept) {

    /** With few centres that each have events, centre is held equal by columns of its own (statistics, 6.5). */
    private static final int MOST_CENTRES = 5;

    private static final long FEWEST_EVENTS_OF_A_CENTRE = 5;

    /**
     * The levels of a factor, or the centres.
     *
     * @param place among the levels of a group
     * @param uses of each level, in the order of the groups
     */
    record Levels(String name, int place, Map<Level, Long> uses) {

        long inUse() {
            return uses.values().stream().filter(count -> count > 0).count();
        }

        /** The level with most uses. */
        Level reference() {
            return uses.entrySet().stream()
                    .filter(level -> level.getValue() > 0)
                    .max(Map.Entry.comparingByValue())
                    .orElseThrow()
                    .getKey();
        }

        /** As a term of the model, of the levels in use. */
        Term term() {
            return new Term.Factor(
                    name,
                    uses.entrySet().stream()
                            .filter(level -> level.getValue() > 0)
                            .map(level -> level.getKey().code())
                            .toList(),
                    reference().code());
        }
    }

    /** At a place; the centres stand after the factors. */
    Levels levels(int place) {
        Map<Level, Long> uses = new LinkedHashMap<>();
        kept.forEach(group -> uses.merge(group.levels().get(place), group.uses(), Long::sum));
        return new Levels(name(place), place, uses);
    }

    private String name(int place) {
        return place < factors.size() ? factors.get(place).code() : GroupBy.CENTRE.code();
    }

    /** Whether centres are few enough, with events enough in each, to have columns of their own. */
    boolean carriesCentres() {
        Map<Level, Long> events = new TreeMap<>();
        kept.forEach(group -> events.merge(group.levels().get(factors.size()), group.events(), Long::sum));
        return events.size() > 1
                && events.size() <= MOST_CENTRES
                && events.values().stream().allMatch(count -> count >= FEWEST_EVENTS_OF_A_CENTRE);
    }

    /** Events and uses of one level, whatever the others. */
    Proportion at(int place, Level level) {
        return kept.stream()
                .filter(group -> group.levels().get(place).equals(level))
                .map(group -> new Proportion(group.events(), group.uses()))
                .reduce(new Proportion(0, 0), Proportion::plus);
    }

    List<CovariatePattern> patterns() {
        return kept.stream()
                .map(group -> {
                    Map<String, String> levels = new LinkedHashMap<>();
                    for (int place = 0; place <= factors.size(); place++) {
                        levels.put(name(place), group.levels().get(place).code());
                    }
                    return new CovariatePattern(levels, Map.of(), new Proportion(group.events(), group.uses()));
                })
                .toList();
    }
}
