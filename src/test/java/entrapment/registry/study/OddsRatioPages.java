package entrapment.registry.study;

import static entrapment.registry.study.CoverageStudy.cell;
import static entrapment.registry.study.CoverageStudy.head;
import static entrapment.registry.study.CoverageStudy.plain;

import entrapment.registry.study.OddsRatioCoverage.Method;
import entrapment.registry.study.OddsRatioCoverage.Row;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;

/** The section on odds ratios. */
final class OddsRatioPages {

    private static final List<Double> ODDS_RATIOS = List.of(1.0, 2.0, 5.0);
    private static final List<Double> EXPECTED = List.of(1.0, 3.0, 10.0, 30.0);
    private static final double STEP = 0.5;

    private OddsRatioPages() {}

    /** Two groups of fixed size. */
    private record Groups(int exposed, int reference) {
        String title() {
            return String.format(Locale.ROOT, "%,d exposed, %,d reference uses", exposed, reference);
        }
    }

    private static final List<Groups> GROUPS = List.of(new Groups(200, 2_000), new Groups(1_000, 1_000));

    static String section() {
        StringBuilder tables = new StringBuilder();
        Map<Method, Double> lowest = new EnumMap<>(Method.class);
        for (Groups groups : GROUPS) {
            OddsRatioCoverage study = new OddsRatioCoverage(groups.exposed(), groups.reference());
            tables.append("### ").append(groups.title()).append("\n\n");
            tables.append(table(study)).append('\n');
            tables.append(lowest(study, lowest)).append('\n');
        }
        return """
                ## Odds ratios

                Two groups of fixed size; the reference group expects a number of events, and the odds of the other are those times the
                true odds ratio. The probabilities of all tables are summed up, so nothing is random. A table without any event says
                nothing about an odds ratio: its probability has a column of its own, and coverage is among the other tables.

                """ + reading(lowest) + tables;
    }

    private static String reading(Map<Method, Double> lowest) {
        return String.format(
                Locale.ROOT,
                """
                In plain words: the mid-P interval, the default, is at its lowest %.3f in these settings, which is no guarantee. With few events it holds
                the truth more often than promised, since the table then can say little, and it comes close to 0.950 as events gather.
                The exact interval never falls short (%.3f at the lowest). Woolf's line with halves added at a zero falls to %.3f, and
                with halves always added to %.3f: halves narrow the line most where events are fewest, and at a zero both lines give an
                upper limit that the data don't.

                """,
                lowest.get(Method.MID_P),
                lowest.get(Method.EXACT),
                lowest.get(Method.WOOLF),
                lowest.get(Method.WOOLF_HALVES));
    }

    /** The table of lowest coverages, which go into {@code overall} too. */
    private static String lowest(OddsRatioCoverage study, Map<Method, Double> overall) {
        double most = EXPECTED.get(EXPECTED.size() - 1);
        StringBuilder rows = new StringBuilder(String.format(
                Locale.ROOT,
                "Lowest coverage from %s to %s expected events in the reference group, in steps of %s, and where:\n\n",
                plain(STEP),
                plain(most),
                plain(STEP)));
        rows.append(head(0, titles("odds ratio")));
        for (double oddsRatio : ODDS_RATIOS) {
            rows.append("| ").append(plain(oddsRatio)).append(" |");
            study.lowest(oddsRatio, STEP, most).forEach((method, found) -> {
                overall.merge(method, found.coverage(), Math::min);
                rows.append(String.format(Locale.ROOT, " %.3f at %s |", found.coverage(), plain(found.at())));
            });
            rows.append('\n');
        }
        return rows.toString();
    }

    private static String table(OddsRatioCoverage study) {
        StringBuilder rows = new StringBuilder(
                head(0, titles("expected in reference", "odds ratio", "no event at all", "a zero cell")));
        for (double expected : EXPECTED) {
            for (double oddsRatio : ODDS_RATIOS) {
                Row row = study.row(expected, oddsRatio);
                rows.append("| ")
                        .append(plain(expected))
                        .append(" | ")
                        .append(plain(oddsRatio))
                        .append(" |");
                rows.append(cell(row.emptyMargin())).append(cell(row.zeroCell()));
                row.coverage().forEach((method, coverage) -> rows.append(cell(coverage)));
                rows.append('\n');
            }
        }
        return rows.toString();
    }

    static String line(Row row) {
        StringBuilder cells = new StringBuilder("| " + plain(row.expected()) + " | " + plain(row.oddsRatio()) + " |");
        cells.append(cell(row.emptyMargin())).append(cell(row.zeroCell()));
        row.coverage().forEach((method, coverage) -> cells.append(cell(coverage)));
        return cells.append('\n').toString();
    }

    private static List<String> titles(String... first) {
        List<String> titles = new ArrayList<>(List.of(first));
        Stream.of(Method.values()).map(Method::title).forEach(titles::add);
        return titles;
    }
}
