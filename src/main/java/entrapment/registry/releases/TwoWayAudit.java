package entrapment.registry.releases;

import entrapment.registry.stats.PublishedTable;
import entrapment.registry.stats.SuppressionAuditAnalysis;
import entrapment.registry.stats.TableCell;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The kernel's audit of each table of a release by itself, by maximum flows in whole numbers. It sees less than an
 * {@link Attack}, so what it calls unsafe is unsafe; a second opinion by another route.
 */
final class TwoWayAudit {

    private TwoWayAudit() {}

    /**
     * Whether the small cells of both tables are safe as far as each table tells.
     *
     * @param figures the release: incidence by device class and year, harm by device class
     * @param small sums with their thresholds; those of {@code threshold} are looked at
     */
    static boolean safe(Unknowns unknowns, Map<Sum, @Nullable Long> figures, Map<Sum, Integer> small, int threshold) {
        List<Integer> throughYears = unknowns.throughYears();
        int first = unknowns.firstYear();
        int last = throughYears.get(throughYears.size() - 1);
        List<@Nullable Integer> years =
                new ArrayList<>(IntStream.rangeClosed(first, last).boxed().toList());
        List<@Nullable String> harms = new ArrayList<>(unknowns.harms());
        BiFunction<@Nullable String, @Nullable Integer, Sum> byYear = (deviceClass, year) ->
                year == null ? Sum.events(deviceClass, first, last) : Sum.events(deviceClass, year, year);
        BiFunction<@Nullable String, @Nullable String, Sum> byHarm =
                (deviceClass, harm) -> new Sum(Sum.Measure.EVENTS, deviceClass, harm, first, last);
        return safe(unknowns.deviceClasses(), years, byYear, figures, small, threshold)
                && safe(unknowns.deviceClasses(), harms, byHarm, figures, small, threshold);
    }

    private static <T> boolean safe(
            List<String> rows,
            List<@Nullable T> columns,
            BiFunction<@Nullable String, @Nullable T, Sum> sum,
            Map<Sum, @Nullable Long> figures,
            Map<Sum, Integer> small,
            int threshold) {
        List<List<@Nullable Long>> cells = new ArrayList<>();
        List<@Nullable Long> rowTotals = new ArrayList<>();
        List<@Nullable Long> columnTotals = new ArrayList<>();
        List<TableCell> marked = new ArrayList<>();
        for (String row : rows) {
            List<@Nullable Long> line = new ArrayList<>();
            for (T column : columns) {
                Sum cell = sum.apply(row, column);
                line.add(figures.get(cell));
                if (small.getOrDefault(cell, 0) == threshold) {
                    marked.add(new TableCell(cells.size() + 1, line.size()));
                }
            }
            cells.add(line);
            rowTotals.add(figures.get(sum.apply(row, null)));
        }
        for (T column : columns) {
            columnTotals.add(figures.get(sum.apply(null, column)));
        }
        return SuppressionAuditAnalysis.of(new PublishedTable(cells, rowTotals, columnTotals), threshold, marked)
                .safe();
    }
}
