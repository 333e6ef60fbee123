package entrapment.registry.reports.question;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.calculations.KernelJson;
import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.stats.Confidence;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Counts and questions for reports that no database made. */
public final class ReportSamples {

    public static final DataCut CUT = new DataCut(812, Instant.parse("2031-04-02T08:30:00Z"));

    public static final Viewer STEWARD = new Viewer("key", Role.STEWARD, null);

    /** Everything in the registry, at 95 per cent. */
    public static final ReportScope SCOPE = new ReportScope(STEWARD, Selection.ALL, Confidence.DEFAULT, null);

    private static final JsonMapper JSON =
            JsonMapper.builder().addModule(new KernelJson().kernel()).build();

    private ReportSamples() {}

    public static Viewer analystOf(String centre) {
        return new Viewer("key", Role.ANALYST, centre);
    }

    /** So many events or uses of one cell, {@code "north 2031-Q1 balloon"}, at these levels. */
    public static Tally tally(String cell, long count, String... levels) {
        return tally(cell, true, count, levels);
    }

    /** The same outside the selection. */
    public static Tally unselected(String cell, long count, String... levels) {
        return tally(cell, false, count, levels);
    }

    private static Tally tally(String cell, boolean selected, long count, String... levels) {
        String[] parts = cell.split(" ", -1);
        return new Tally(parts[0], Period.parse(parts[1]).orElseThrow(), parts[2], List.of(levels), selected, count);
    }

    /** Groups that were counted without a discordant cell: {@code "severe 45 67"}, the level, its events and uses. */
    public static Counting counted(String... groups) {
        return new Counting(
                Stream.of(groups)
                        .map(group -> group.split(" ", -1))
                        .map(group -> new Counting.Group(
                                Stream.of(group)
                                        .limit(group.length - 2)
                                        .map(ReportSamples::level)
                                        .toList(),
                                Long.parseLong(group[group.length - 2]),
                                Long.parseLong(group[group.length - 1])))
                        .toList(),
                new Counting.Excluded(0, 0, 0),
                0);
    }

    /** Of whatever a test splits by: a period, a code of the first factor that has it, otherwise a centre. */
    public static Level level(String code) {
        if (code.matches("[0-9]{4}(-Q[1-4])?")) {
            return new Level.OfPeriod(Period.parse(code).orElseThrow());
        }
        return Stream.concat(Stream.of(Factor.CALCIFICATION), Stream.of(Factor.values()))
                .filter(factor -> factor.levels().contains(code))
                .findFirst()
                .<Level>map(factor -> Level.of(factor, code))
                .orElseGet(() -> new Level.OfCentre(code));
    }

    public static Counting withExclusions(Counting counting, long cells, long events, long uses, long contradictions) {
        return new Counting(counting.groups(), new Counting.Excluded(cells, events, uses), contradictions);
    }

    /** {@code "north balloon harm severe 3"}: the outcome of so many cases of one quarter, split by their device class. */
    public static List<OutcomeTally> outcomes(String... lines) {
        return Stream.of(lines)
                .map(line -> line.split(" ", -1))
                .map(part -> new OutcomeTally(
                        tally(part[0] + " 2031-Q1 " + part[1], Long.parseLong(part[4]), part[1]), part[2], part[3]))
                .toList();
    }

    /** The notes of a report as programs read them. */
    public static List<String> notes(Report report) {
        return report.notes().stream().map(Note::forPrograms).toList();
    }

    public static JsonNode json(Report report) {
        return JSON.valueToTree(report);
    }

    public static List<String> names(JsonNode object) {
        return List.copyOf(object.propertyNames());
    }

    /** The whole CSV of a report, with its comments; the committed files end their lines as all other text here does. */
    public static String csv(Report report) {
        return CsvWriter.write(report.table(), true).replace("\r\n", "\n");
    }

    public static Path expected(String name) {
        return Path.of("src/test/resources/expected", name);
    }
}
