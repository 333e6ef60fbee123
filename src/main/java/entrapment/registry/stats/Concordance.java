package entrapment.registry.stats;

import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * How often an event had the higher predicted probability.
 *
 * @param c over all pairs of an event and a non-event; {@code null} without such a pair
 * @param standardError DeLong's; {@code null} with fewer than two events or non-events
 */
record Concordance(@Nullable Double c, @Nullable Double standardError) {

    /**
     * c = ΣΣeᵢfⱼ[1(pᵢ&gt;pⱼ)+½·1(pᵢ=pⱼ)]/(ΣeΣf); V10ᵢ the share of non-events that row i's events beat, V01ⱼ the share of
     * events that beat row j's non-events, S10 = Σeᵢ(V10ᵢ−c)²/(Σe−1), S01 likewise; se² = S10/Σe+S01/Σf [1]. From one
     * sort, not from pairs of rows.
     *
     * <p><b>Same as</b> R {@code pROC::auc}, {@code sqrt(pROC::var(roc))}. Accuracy: relative 1e-12.
     *
     * <p>[1] DeLong ER, DeLong DM, Clarke-Pearson DL, Biometrics 1988;44:837.
     */
    static Concordance of(List<PredictedRow> rows) {
        List<PredictedRow> sorted = rows.stream()
                .sorted(Comparator.comparingDouble(PredictedRow::predicted))
                .toList();
        int n = sorted.size();
        double[] beaten = new double[n];
        double[] beating = new double[n];
        double events = 0;
        double nonEvents = 0;
        for (int from = 0, to; from < n; from = to) {
            double tiedEvents = 0;
            double tiedNonEvents = 0;
            for (to = from;
                    to < n && sorted.get(to).predicted() == sorted.get(from).predicted();
                    to++) {
                tiedEvents += events(sorted.get(to));
                tiedNonEvents += nonEvents(sorted.get(to));
            }
            for (int i = from; i < to; i++) {
                beaten[i] = nonEvents + tiedNonEvents / 2;
                beating[i] = events + tiedEvents / 2;
            }
            events += tiedEvents;
            nonEvents += tiedNonEvents;
        }
        if (events == 0 || nonEvents == 0) {
            return new Concordance(null, null);
        }
        double c = 0;
        for (int i = 0; i < n; i++) {
            c += events(sorted.get(i)) / events * (beaten[i] / nonEvents);
        }
        double s10 = 0;
        double s01 = 0;
        for (int i = 0; i < n; i++) {
            double v10 = beaten[i] / nonEvents - c;
            double v01 = 1 - beating[i] / events - c;
            s10 += events(sorted.get(i)) * v10 * v10;
            s01 += nonEvents(sorted.get(i)) * v01 * v01;
        }
        return new Concordance(
                Math.min(1, c),
                events < 2 || nonEvents < 2
                        ? null
                        : Double.valueOf(
                                FastMath.sqrt(s10 / (events - 1) / events + s01 / (nonEvents - 1) / nonEvents)));
    }

    private static double events(PredictedRow row) {
        return row.proportion().events();
    }

    private static double nonEvents(PredictedRow row) {
        return row.proportion().of() - row.proportion().events();
    }
}
