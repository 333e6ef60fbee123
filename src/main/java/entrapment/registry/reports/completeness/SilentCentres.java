package entrapment.registry.reports.completeness;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.SilenceAnalysis;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * Centres whose uses make it unlikely that they had no case.
 *
 * @param centres how many
 * @param named the centres that the viewer may see by name
 */
public record SilentCentres(long centres, List<Silence> named) {

    /**
     * A centre without a case.
     *
     * @param expected cases at the network's rate of each device class it used
     * @param probability of no case at that rate, if uses are independent
     */
    public record Silence(String centre, long uses, double expected, double probability, String question) {}

    static SilentCentres of(
            List<Tally> caseTallies, List<Tally> useTallies, Predicate<String> asked, Predicate<String> named) {
        List<Silence> silences = silences(caseTallies, useTallies, asked);
        return new SilentCentres(
                silences.size(),
                silences.stream()
                        .filter(silence -> named.test(silence.centre()))
                        .toList());
    }

    /**
     * Centres with uses and no case, where chance is an unlikely reason at the network's rate of each device class; cells that
     * contradict themselves are left out.
     */
    private static List<Silence> silences(List<Tally> caseTallies, List<Tally> useTallies, Predicate<String> asked) {
        Map<Cell, Long> events = Counting.total(caseTallies);
        Map<Cell, Long> uses = Counting.total(useTallies);
        Set<Cell> discordant = Counting.discordant(caseTallies, useTallies).keySet();
        Map<String, Proportion> byClass = new TreeMap<>();
        Map<String, Map<String, Long>> byCentre = new TreeMap<>();
        uses.forEach((cell, count) -> {
            if (!discordant.contains(cell)) {
                byClass.merge(
                        cell.deviceClass(), new Proportion(events.getOrDefault(cell, 0L), count), Proportion::plus);
                byCentre.computeIfAbsent(cell.centre(), key -> new TreeMap<>())
                        .merge(cell.deviceClass(), count, Long::sum);
            }
        });
        events.keySet().forEach(cell -> byCentre.remove(cell.centre()));
        List<Silence> silences = new ArrayList<>();
        byCentre.forEach((centre, counts) -> {
            SilenceAnalysis analysis = SilenceAnalysis.of(
                    counts.keySet().stream()
                            .map(each -> byClass.getOrDefault(each, new Proportion(0, 0)))
                            .toList(),
                    List.copyOf(counts.values()));
            if (asked.test(centre) && analysis.unlikely()) {
                long all = counts.values().stream().mapToLong(Long::longValue).sum();
                silences.add(new Silence(
                        centre,
                        all,
                        analysis.expected(),
                        analysis.probabilityOfNone(),
                        question(all, analysis.expected(), analysis.probabilityOfNone())));
            }
        });
        return silences;
    }

    private static String question(long uses, double expected, double probability) {
        return ("%s and no case, where %s would be expected at the network's rate of each device class (probability of none"
                        + " by chance %s). Is every case being reported?")
                .formatted(Words.uses(uses), NumberText.ratio(expected), NumberText.pValue(probability));
    }
}
