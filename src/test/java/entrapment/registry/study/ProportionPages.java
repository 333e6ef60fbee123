package entrapment.registry.study;

import static entrapment.registry.study.CoverageStudy.cell;
import static entrapment.registry.study.CoverageStudy.head;
import static entrapment.registry.study.CoverageStudy.plain;

import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.study.ProportionCoverage.Extremes;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** The section on proportions. */
final class ProportionPages {

    static final List<Integer> USES = List.of(200, 2_000, 20_000);

    private static final List<Double> EXPECTED = List.of(0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 20.0, 30.0);

    /** Coverage where at least so many events are expected is given apart. */
    static final double ONE_EVENT = 1;

    private ProportionPages() {}

    static String section() {
        StringBuilder text = new StringBuilder("""
                ## Proportions

                n uses, each with the same true proportion; the probabilities of all counts are summed up, so nothing is random.

                """);
        text.append(reading());
        for (int n : USES) {
            text.append(String.format(Locale.ROOT, "### %,d uses\n\n", n))
                    .append(table(n))
                    .append('\n')
                    .append(extremes(n))
                    .append('\n');
        }
        return text.toString();
    }

    private static String reading() {
        Extremes wilson =
                ProportionCoverage.of(IntervalMethod.WILSON, 2_000).extremes(ProportionCoverage.LEAST_EXPECTED);
        Extremes wilsonFromOne =
                ProportionCoverage.of(IntervalMethod.WILSON, 2_000).extremes(ONE_EVENT);
        Extremes exact = ProportionCoverage.of(IntervalMethod.CLOPPER_PEARSON, 2_000)
                .extremes(ProportionCoverage.LEAST_EXPECTED);
        Extremes jeffreys = ProportionCoverage.of(IntervalMethod.JEFFREYS, 200).extremes(ONE_EVENT);
        return String.format(
                Locale.ROOT,
                """
                In plain words, for 2,000 uses: Wilson's interval, the default, is right on average (%.3f). Where one event or more is
                expected it never falls below %s. Its hole is a registry that expects a sixth of an event: there it can fall to %s,
                because a single event, when it comes, makes its lower limit too high. Such a registry should print its count and the
                one-sided bound, not a comparison. Clopper–Pearson never falls short (%s at the lowest) and pays with %.3f on average.
                Jeffreys' interval falls lowest in small registries (%s at 200 uses, with one event or more expected).

                The lowest and mean values for 2,000 uses agree to all three decimals with an enumeration in R 4.2.2 on the same grid, a
                program written apart from this one; `CoverageStudyTests` holds them together. A grid can miss the lowest point, so the
                column "never below" looks between its points too, beside each limit, where coverage jumps; it is rounded down.

                """,
                wilson.mean(),
                down(wilsonFromOne.infimum()),
                down(wilson.infimum()),
                down(exact.infimum()),
                exact.mean(),
                down(jeffreys.infimum()));
    }

    /** Coverage at chosen numbers of expected events. */
    static String table(int n) {
        List<ProportionCoverage> methods = Stream.of(IntervalMethod.values())
                .map(method -> ProportionCoverage.of(method, n))
                .toList();
        List<String> titles = new ArrayList<>(List.of("expected events", "true proportion"));
        Stream.of(IntervalMethod.values()).map(ProportionPages::title).forEach(titles::add);
        StringBuilder rows = new StringBuilder(head(0, titles));
        for (double expected : EXPECTED) {
            rows.append("| ")
                    .append(plain(expected))
                    .append(" | ")
                    .append(plain(100 * expected / n))
                    .append(" % |");
            methods.forEach(method -> rows.append(cell(method.at(expected))));
            rows.append('\n');
        }
        return rows.toString();
    }

    /** Lowest and mean coverage between the least and most expected events. */
    static String extremes(int n) {
        StringBuilder rows = new StringBuilder(String.format(
                Locale.ROOT,
                "From %s to %s expected events, in steps of %s:\n\n",
                plain(ProportionCoverage.LEAST_EXPECTED),
                plain(ProportionCoverage.MOST_EXPECTED),
                plain(1.0 / ProportionCoverage.STEPS_PER_EVENT)));
        rows.append(head(
                1,
                List.of(
                        "interval",
                        "lowest",
                        "at",
                        "mean",
                        "never below",
                        "beside",
                        "lowest from 1 event on",
                        "at",
                        "never below",
                        "beside")));
        for (IntervalMethod method : IntervalMethod.values()) {
            ProportionCoverage coverage = ProportionCoverage.of(method, n);
            Extremes all = coverage.extremes(ProportionCoverage.LEAST_EXPECTED);
            Extremes fromOne = coverage.extremes(ONE_EVENT);
            rows.append(String.format(
                    Locale.ROOT,
                    "| %s | %.3f | %.2f | %.3f | %s | %.4f | %.3f | %.2f | %s | %.4f |\n",
                    title(method),
                    all.lowest(),
                    all.at(),
                    all.mean(),
                    down(all.infimum()),
                    all.infimumAt(),
                    fromOne.lowest(),
                    fromOne.at(),
                    down(fromOne.infimum()),
                    fromOne.infimumAt()));
        }
        return rows.toString();
    }

    /** Rounded down, since nothing may lie below it. */
    private static String down(double infimum) {
        return new BigDecimal(infimum).setScale(3, RoundingMode.DOWN).toPlainString();
    }

    private static String title(IntervalMethod method) {
        return switch (method) {
            case WILSON -> "Wilson";
            case WILSON_CONTINUITY -> "Wilson, corrected";
            case CLOPPER_PEARSON -> "Clopper–Pearson";
            case JEFFREYS -> "Jeffreys";
        };
    }
}
