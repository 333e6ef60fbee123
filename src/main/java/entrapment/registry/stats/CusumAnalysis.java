package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Does the run of uses fit a changed rate better than the baseline? The default way to ask whether things get worse.
 *
 * @param path the sum after each use, in order
 * @param maximum the largest of them; {@code null} without a use
 * @param firstSignal number of the use, from 1, at which the sum first reached the threshold; {@code null} if it never did
 * @param signals numbers of all uses at which the sum stood at or above the threshold
 * @param weightEventFirst what an event adds; {@code null} if the risk differs between uses
 * @param weightNoEventFirst what an uneventful use adds, negative when watching for deterioration; {@code null} if the
 *     risk differs between uses
 * @param notes what the reader must know
 */
public record CusumAnalysis(
        List<Double> path,
        @Nullable Double maximum,
        @Nullable Long firstSignal,
        List<Long> signals,
        @Nullable Double weightEventFirst,
        @Nullable Double weightNoEventFirst,
        List<Note> notes) {

    /**
     * The Bernoulli CUSUM under one baseline risk.
     *
     * <p>Formula, edges, equivalents and references as {@link #of(List, List, CusumRule)}.
     *
     * @param outcomes every use in order, true for an event
     * @param risk the baseline risk p₀, in (0, 1)
     * @throws IllegalArgumentException if the risk is out of its range or not a number
     */
    public static CusumAnalysis of(List<Boolean> outcomes, double risk, CusumRule rule) {
        Counts.requireInside("risk", risk);
        return watch(outcomes, Collections.nCopies(outcomes.size(), risk), rule, risk);
    }

    /**
     * The Bernoulli CUSUM, each use with its own risk.
     *
     * <p>Valid for uses in the order in which they were done. With risk p and alternative odds ratio R:
     * W = log[R/(1−p+Rp)] after an event and log[1/(1−p+Rp)] after none; S_t = max(0, S_{t−1}+W_t); a signal is S_t ≥ h [1].
     * After a signal the sum starts again from 0 if the rule says so. R &lt; 1 watches for improvement.
     *
     * <p>Edges: no use: empty path, {@code maximum} {@code null}, note {@code NO_EXPOSURE}. Without a reset every use at or
     * above the threshold is listed.
     *
     * <p><b>Same as</b> the weights and sums printed in [1]; base R has no such chart. Accuracy: absolute 1e-15 times the
     * number of uses since the sum last stood at 0.
     *
     * <p>[1] Steiner SH, Cook RJ, Farewell VT, Treasure T, Biostatistics 2000;1:441.
     *
     * @param outcomes every use in order, true for an event
     * @param risks the risk of each use, each in (0, 1)
     * @throws IllegalArgumentException if there are not as many risks as outcomes, or one is out of its range
     */
    public static CusumAnalysis of(List<Boolean> outcomes, List<Double> risks, CusumRule rule) {
        if (risks.size() != outcomes.size()) {
            throw new IllegalArgumentException(
                    "risks must be as many as outcomes, " + outcomes.size() + ", got " + risks.size());
        }
        risks.forEach(each -> Counts.requireInside("risk", each));
        return watch(outcomes, risks, rule, null);
    }

    private static CusumAnalysis watch(
            List<Boolean> outcomes, List<Double> risks, CusumRule rule, @Nullable Double risk) {
        List<Double> path = new ArrayList<>(outcomes.size());
        List<Long> signals = new ArrayList<>();
        double sum = 0;
        double maximum = 0;
        for (int t = 0; t < outcomes.size(); t++) {
            sum = Math.max(0, sum + rule.weight(outcomes.get(t), risks.get(t)));
            path.add(sum);
            maximum = Math.max(maximum, sum);
            if (sum >= rule.threshold()) {
                signals.add(t + 1L);
                sum = rule.resetAfterSignal() ? 0 : sum;
            }
        }
        return new CusumAnalysis(
                Collections.unmodifiableList(path),
                path.isEmpty() ? null : maximum,
                signals.isEmpty() ? null : signals.get(0),
                List.copyOf(signals),
                risk == null ? null : rule.weight(true, risk),
                risk == null ? null : rule.weight(false, risk),
                path.isEmpty()
                        ? List.of(new Note(NoteCode.NO_EXPOSURE, "There is no use, so there is nothing to watch."))
                        : List.of());
    }
}
