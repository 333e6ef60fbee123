package entrapment.registry.study;

import static entrapment.registry.study.CoverageStudy.cell;
import static entrapment.registry.study.CoverageStudy.head;
import static entrapment.registry.study.CoverageStudy.plain;

import entrapment.registry.study.AttemptsCoverage.Coverage;
import entrapment.registry.study.AttemptsCoverage.Difficulty;
import entrapment.registry.study.AttemptsCoverage.Ending;
import entrapment.registry.study.AttemptsCoverage.Registry;
import entrapment.registry.study.AttemptsCoverage.Row;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;

/** The section on attempts. */
final class AttemptsPages {

    private static final List<Ending> ENDINGS = List.of(Ending.AT_SUCCESS, Ending.AFTER_ALL);
    private static final List<Integer> CASES = List.of(10, 30, 100);

    /** The first of the seeds, one for each row; nobody searched for it. */
    private static final long SEED = 20_260_101;

    private AttemptsPages() {}

    static String section() {
        List<Row> rows = rows();
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                """
                ## Success per attempt

                Half of the cases are easy and half hard, with their own chance of success at each attempt, so attempts of one case
                resemble each other. The truth is the expected number of successes over the expected number of attempts. %,d registries
                for each row, drawn by `SplittableRandom` from the seed in the row; the Monte-Carlo standard error stands behind each ±.

                In plain words: taken as if all attempts were independent, Wilson's interval holds the truth in as few as %.3f of the
                registries. At the effective sample size, the default, it is between %.3f and %.3f. The t interval is between %.3f and %.3f;
                where all cases went alike it gives no interval at all (the last column). With ten cases each of them can be off, either way.

                """,
                AttemptsCoverage.REGISTRIES,
                least(rows, Row::naive),
                least(rows, Row::effective),
                most(rows, Row::effective),
                least(rows, Row::clusterT),
                most(rows, Row::clusterT)));
        for (Ending ending : ENDINGS) {
            text.append("### A case ends ").append(ending.title()).append("\n\n");
            text.append(head(
                    1,
                    List.of(
                            "chances, easy and hard",
                            "cases",
                            "truth",
                            "mean design effect",
                            "as if independent",
                            "effective size",
                            "t of cases",
                            "no t",
                            "seed")));
            rows.stream().filter(row -> row.registry().ending() == ending).forEach(row -> text.append(line(row)));
            text.append('\n');
        }
        return text.toString();
    }

    private static List<Row> rows() {
        List<Row> rows = new ArrayList<>();
        for (Ending ending : ENDINGS) {
            for (Difficulty difficulty : Difficulty.values()) {
                for (int cases : CASES) {
                    rows.add(AttemptsCoverage.row(new Registry(ending, difficulty, cases, SEED + rows.size())));
                }
            }
        }
        return rows;
    }

    private static String line(Row row) {
        Registry registry = row.registry();
        return String.format(
                Locale.ROOT,
                "| %s and %s | %d |%s %.2f | %s | %s | %s |%s %d |\n",
                plain(registry.difficulty().easy()),
                plain(registry.difficulty().hard()),
                registry.cases(),
                cell(row.truth()),
                row.designEffect(),
                measured(row.naive()),
                measured(row.effective()),
                measured(row.clusterT()),
                cell(row.clusterT().none()),
                registry.seed());
    }

    private static String measured(Coverage coverage) {
        return String.format(Locale.ROOT, "%.3f ± %.4f", coverage.coverage(), coverage.standardError());
    }

    private static double least(List<Row> rows, Function<Row, Coverage> interval) {
        return rows.stream()
                .mapToDouble(row -> interval.apply(row).coverage())
                .min()
                .orElseThrow();
    }

    private static double most(List<Row> rows, Function<Row, Coverage> interval) {
        return rows.stream()
                .mapToDouble(row -> interval.apply(row).coverage())
                .max()
                .orElseThrow();
    }
}
