package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * How many events did a centre have for each that its mix of cases led one to expect? The ratios of two centres do not
 * compare with each other if their mixes differ.
 *
 * @param observed O
 * @param expected E at the reference's rates; {@code null} if a stratum has no reference rate
 * @param oOverE O/E; {@code null} if E is 0 or missing
 * @param exact the default interval
 * @param byar its closed approximation
 * @param midPValue two-sided, against O/E = 1
 * @param indirectlyStandardisedRate the reference's crude rate times O/E
 * @param notes why a figure is missing or to be read with care
 */
public record IndirectStandardisationAnalysis(
        long observed,
        @Nullable Double expected,
        @Nullable Double oOverE,
        Interval exact,
        Interval byar,
        @Nullable Double midPValue,
        @Nullable Double indirectlyStandardisedRate,
        List<Note> notes) {

    private static final double LEAST_EXPECTED = 1;

    /**
     * Observed over expected.
     *
     * <p>Valid for rare events, O Poisson about E·ratio, and a reference so large that its own error is negligible.
     * E = Σ n_centre·rate_reference over strata; limits Garwood(O)/E [1] and Byar(O)/E [2];
     * p = min(1, 2·smaller tail − P(O)) under Poisson(E).
     *
     * <p>Edges: O = 0: ratio and lower limits exactly 0, note {@code NO_EVENT}. E = 0: everything but the counts
     * {@code null}. A stratum in which the centre has uses and the reference has none: the same, with E {@code null} too and
     * a note that names the stratum. E below 1: note {@code TOO_FEW_EVENTS}. A p-value below 2.2e-308 is given as 2.2e-308.
     *
     * <p><b>Same as</b> R {@code epitools::ageadjust.indirect} in E, ratio and rate, and {@code poisson.test(O, E)} in the
     * interval; <b>not the same as</b> the former's interval, a normal one. Accuracy: as {@link Rate#garwood}.
     *
     * <p>[1] Garwood F, Biometrika 1936;28:437. [2] Breslow NE, Day NE, Statistical Methods in Cancer Research II, IARC
     * 1987.
     *
     * @param reference the reference's strata
     * @param centre the centre's strata in the same order
     * @throws IllegalArgumentException if there are not as many strata in both, or their sums exceed 2³¹−1
     */
    public static IndirectStandardisationAnalysis of(
            List<Proportion> reference, List<Proportion> centre, Confidence confidence) {
        if (reference.size() != centre.size()) {
            throw new IllegalArgumentException("strata of the centre must be as many as the reference's, "
                    + reference.size() + ", got " + centre.size());
        }
        long observed = centre.stream().mapToLong(Proportion::events).sum();
        Counts.require("observed", observed);
        List<Integer> unknown = IntStream.range(0, centre.size())
                .filter(i -> centre.get(i).of() > 0 && reference.get(i).of() == 0)
                .mapToObj(i -> i + 1)
                .toList();
        Double expected = unknown.isEmpty() ? expected(reference, centre) : null;
        if (expected == null || expected == 0) {
            return new IndirectStandardisationAnalysis(
                    observed,
                    expected,
                    null,
                    Interval.NOT_ESTIMABLE,
                    Interval.NOT_ESTIMABLE,
                    null,
                    null,
                    List.of(noExpected(unknown)));
        }
        Rate count = new Rate(observed, 1);
        double ratio = observed / expected;
        return new IndirectStandardisationAnalysis(
                observed,
                expected,
                ratio,
                count.garwood(confidence).times(1 / expected),
                count.byar(confidence).times(1 / expected),
                new PoissonDistribution(expected).midPValue(observed),
                crude(reference) * ratio,
                notes(observed, expected));
    }

    private static double expected(List<Proportion> reference, List<Proportion> centre) {
        double expected = 0;
        for (int i = 0; i < centre.size(); i++) {
            Proportion stratum = reference.get(i);
            expected += stratum.of() == 0 ? 0 : (double) centre.get(i).of() * stratum.events() / stratum.of();
        }
        return expected;
    }

    private static double crude(List<Proportion> reference) {
        return reference.stream().mapToDouble(Proportion::events).sum()
                / reference.stream().mapToDouble(Proportion::of).sum();
    }

    private static Note noExpected(List<Integer> unknown) {
        return unknown.isEmpty()
                ? new Note(
                        NoteCode.NO_EVENT,
                        "No event is expected at the reference's rates, so there is nothing to compare with.")
                : new Note(
                        NoteCode.NO_EXPOSURE,
                        "The reference has no use in stratum "
                                + String.join(
                                        ", ",
                                        unknown.stream().map(String::valueOf).toList())
                                + ", so the expected count is unknown.");
    }

    private static List<Note> notes(long observed, double expected) {
        List<Note> notes = new ArrayList<>();
        if (observed == 0) {
            notes.add(new Note(
                    NoteCode.NO_EVENT,
                    "No event does not mean no risk: the upper limit says how high the true ratio may still be."));
        }
        if (expected < LEAST_EXPECTED) {
            notes.add(new Note(
                    NoteCode.TOO_FEW_EVENTS, "Fewer than one event is expected: too few to comment on this centre."));
        }
        return List.copyOf(notes);
    }
}
