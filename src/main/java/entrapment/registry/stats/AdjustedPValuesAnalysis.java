package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * p-values of several comparisons, adjusted for their number. Each list has the order of the input and a {@code null}
 * where the input has one.
 *
 * @param comparisons m, the number of p-values that are not missing; to be reported with them
 * @param holm the default for a handful of planned comparisons: the chance of any false finding stays at its level
 * @param benjaminiHochberg for screening long lists: the expected share of false findings stays at its level
 * @param bonferroni m times p, shown for comparison; Holm's is never larger
 * @param notes that p-values were missing, if they were
 */
public record AdjustedPValuesAnalysis(
        int comparisons,
        List<@Nullable Double> holm,
        List<@Nullable Double> benjaminiHochberg,
        List<@Nullable Double> bonferroni,
        List<Note> notes) {

    private static final int MOST = 1_000_000;

    /**
     * Holm's, Benjamini and Hochberg's, and Bonferroni's adjustment.
     *
     * <p>With the p-values sorted: Holm min(1, max_{j≤i}(m−j+1)p₍ⱼ₎), valid for any dependence [1]; Benjamini–Hochberg
     * min(1, min_{j≥i} m·p₍ⱼ₎/j), valid for independent and for positively dependent tests [2]; Bonferroni min(1, m·p).
     *
     * <p>Edges: equal p-values stay equal; a missing one stays {@code null} and does not count in m; no p-value at all
     * gives empty lists.
     *
     * <p><b>Same as</b> R {@code p.adjust(p, "holm")}, {@code "BH"}, {@code "bonferroni"}. Accuracy: relative 1e-15.
     *
     * <p>[1] Holm S, Scand J Stat 1979;6:65. [2] Benjamini Y, Hochberg Y, J R Stat Soc B 1995;57:289.
     *
     * @param pValues each in [0, 1] or {@code null}; at most a million
     * @throws IllegalArgumentException if a p-value is outside [0, 1] or not a number, or there are too many
     */
    public static AdjustedPValuesAnalysis of(List<@Nullable Double> pValues) {
        Counts.require("number of p-values", pValues.size(), 0, MOST);
        pValues.forEach(AdjustedPValuesAnalysis::requirePValue);
        double[] p = pValues.stream()
                .mapToDouble(value -> value == null ? Double.NaN : value)
                .toArray();
        int[] ascending = IntStream.range(0, p.length)
                .filter(i -> !Double.isNaN(p[i]))
                .boxed()
                .sorted(Comparator.comparingDouble(i -> p[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        int m = ascending.length;
        double[] holm = new double[m];
        double[] hochberg = new double[m];
        double[] bonferroni = new double[m];
        for (int i = 0; i < m; i++) {
            holm[i] = Math.max(i == 0 ? 0 : holm[i - 1], Math.min(1, (m - i) * p[ascending[i]]));
            bonferroni[i] = Math.min(1, m * p[ascending[i]]);
        }
        for (int i = m - 1; i >= 0; i--) {
            hochberg[i] = Math.min(i == m - 1 ? 1 : hochberg[i + 1], (double) m / (i + 1) * p[ascending[i]]);
        }
        return new AdjustedPValuesAnalysis(
                m,
                inOrder(p.length, ascending, holm),
                inOrder(p.length, ascending, hochberg),
                inOrder(p.length, ascending, bonferroni),
                notes(p.length - m));
    }

    private static void requirePValue(@Nullable Double value) {
        if (value != null && !(value >= 0 && value <= 1)) {
            throw new IllegalArgumentException("a p-value must be in [0, 1] or missing, got " + value);
        }
    }

    private static List<@Nullable Double> inOrder(int size, int[] ascending, double[] adjusted) {
        List<@Nullable Double> list = new ArrayList<>(Collections.nCopies(size, null));
        for (int i = 0; i < ascending.length; i++) {
            list.set(ascending[i], adjusted[i]);
        }
        return Collections.unmodifiableList(list);
    }

    private static List<Note> notes(int missing) {
        return missing == 0
                ? List.of()
                : List.of(new Note(
                        NoteCode.LEFT_OUT, missing + " p-values are missing; they do not count as comparisons."));
    }
}
