package entrapment.registry.reports;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.calculations.KernelJson;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.stats.Confidence;
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
final class ReportSamples {

    static final DataCut CUT = new DataCut(812, Instant.parse("2031-04-02T08:30:00Z"));

    static final Viewer STEWARD = new Viewer("key", Role.STEWARD, null);

    /** Everything in the registry, at 95 per cent. */
    static final ReportScope SCOPE = new ReportScope(Selection.ALL, Confidence.DEFAULT, null);

    private static final JsonMapper JSON =
            JsonMapper.builder().addModule(new KernelJson().kernel()).build();

    private ReportSamples() {}

    static Viewer analystOf(String centre) {
        return new Viewer("key", Role.ANALYST, centre);
    }

    /** So many events or uses of one cell, {@code "north 2031-Q1 balloon"}, at these levels. */
    static Tally tally(String cell, long count, String... levels) {
        return tally(cell, true, count, levels);
    }

    /** The same outside the selection. */
    static Tally unselected(String cell, long count, String... levels) {
        return tally(cell, false, count, levels);
    }

    private static Tally tally(String cell, boolean selected, long count, String... levels) {
        String[] parts = cell.split(" ", -1);
        return new Tally(parts[0], Period.parse(parts[1]).orElseThrow(), parts[2], List.of(levels), selected, count);
    }

    /** Groups that were counted without a discordant cell: {@code "severe 45 67"}, the level, its events and uses. */
    static Counting counted(String... groups) {
        return new Counting(
                Stream.of(groups)
                        .map(group -> group.split(" ", -1))
                        .map(group -> new Counting.Group(
                                List.of(group).subList(0, group.length - 2),
                                Long.parseLong(group[group.length - 2]),
                                Long.parseLong(group[group.length - 1])))
                        .toList(),
                new Counting.Excluded(0, 0, 0),
                0);
    }

    static Counting withExclusions(Counting counting, long cells, long events, long uses, long contradictions) {
        return new Counting(counting.groups(), new Counting.Excluded(cells, events, uses), contradictions);
    }

    static JsonNode json(Report report) {
        return JSON.valueToTree(report);
    }

    static List<String> names(JsonNode object) {
        return List.copyOf(object.propertyNames());
    }

    /** The whole CSV of a report, with its comments; the committed files end their lines as all other text here does. */
    static String csv(Report report) {
        return CsvWriter.write(report.table(), true).replace("\r\n", "\n");
    }

    static Path expected(String name) {
        return Path.of("src/test/resources/expected", name);
    }
}
