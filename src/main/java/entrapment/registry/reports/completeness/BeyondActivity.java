package entrapment.registry.reports.completeness;

import entrapment.registry.reports.question.Counting;
import entrapment.registry.stats.DiscordanceAnalysis.Status;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Tally;
import entrapment.registry.vocabulary.Tally.Cell;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Cells of centre, period and device class whose cases have no return or outnumber its uses.
 *
 * @param cells how many
 * @param cases in all of them
 * @param named the cells that the viewer may see by name
 */
public record BeyondActivity(long cells, long cases, List<NamedCell> named) {

    /**
     * One cell.
     *
     * @param uses null where the return has none of this device class, or there is no return
     */
    public record NamedCell(
            String centre,
            Period period,
            Level deviceClass,
            long cases,
            @Nullable Long uses,
            Status reason) {

        /** Its centre, period and device class in one line. */
        public String name() {
            return "%s %s %s".formatted(centre, period, deviceClass.code());
        }
    }

    /**
     * @param beyond selected cases in a cell that contradicts its return
     * @param discordant what is wrong with each such cell
     */
    static BeyondActivity of(
            List<Tally> beyond,
            Map<Cell, Status> discordant,
            CompletenessQuestion.Evidence evidence,
            Predicate<String> named) {
        Set<Cell> cells = beyond.stream().map(Tally::cell).collect(Collectors.toSet());
        Map<Cell, Long> cases = Counting.total(evidence.events());
        Map<Cell, Long> uses = Counting.total(evidence.uses());
        return new BeyondActivity(
                cells.size(),
                beyond.stream().mapToLong(Tally::count).sum(),
                discordant.entrySet().stream()
                        .filter(cell -> cells.contains(cell.getKey())
                                && named.test(cell.getKey().centre()))
                        .map(cell -> new NamedCell(
                                cell.getKey().centre(),
                                cell.getKey().period(),
                                Level.of(Factor.DEVICE_CLASS, cell.getKey().deviceClass()),
                                cases.getOrDefault(cell.getKey(), 0L),
                                uses.get(cell.getKey()),
                                cell.getValue()))
                        .toList());
    }
}
