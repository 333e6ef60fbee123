package entrapment.registry.pages;

import entrapment.registry.activity.Activity;
import entrapment.registry.activity.CsvReading;
import entrapment.registry.cases.BulkOutcome;
import entrapment.registry.cases.Cases;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.exports.Table;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Rows;
import entrapment.registry.vocabulary.Period;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/**
 * What came of a file that a person sent.
 *
 * @param kind cases or activity
 * @param good rows that are right
 * @param refused rows that are not
 * @param wrong what is wrong with them, by line; at most {@value #MOST_LISTED}
 * @param download all of it as CSV, as an address that holds it; null where nothing is wrong
 * @param notes what has to be thought of beyond the registry
 */
record SentFile(
        String kind,
        boolean stored,
        long received,
        long good,
        long refused,
        long created,
        long changed,
        long unchanged,
        long queried,
        List<Wrong> wrong,
        @Nullable String download,
        List<String> notes) {

    /** A browser takes an address of two million characters; more errors than these have one cause. */
    private static final int MOST_IN_FILE = 3_000;

    static final int MOST_LISTED = 200;

    /** One thing that is wrong; never with the value that is. */
    record Wrong(@Nullable Long line, String field, String what, String mend) {}

    private static final Map<String, String> EXAMPLE = Map.ofEntries(
            Map.entry("caseKey", "example-key-a"),
            Map.entry("ageBand", "70-74"),
            Map.entry("sex", "female"),
            Map.entry("presentation", "chronic-coronary"),
            Map.entry("urgency", "elective"),
            Map.entry("access", "radial"),
            Map.entry("guideFrench", "7"),
            Map.entry("operatorStage", "established"),
            Map.entry("vessel", "rca"),
            Map.entry("position", "mid"),
            Map.entry("calcification", "severe"),
            Map.entry("tortuosity", "moderate"),
            Map.entry("angulation", "45-to-90"),
            Map.entry("totalOcclusion", "no"),
            Map.entry("stentLayers", "0"),
            Map.entry("deviceClass", "rotational-burr"),
            Map.entry("deviceSizeMm", "1.25"),
            Map.entry("mechanism", "passed-beyond-lesion"),
            Map.entry("phase", "final-pass"),
            Map.entry("haemodynamics", "stable"),
            Map.entry("timiFlow", "2"),
            Map.entry("fractured", "no"),
            Map.entry("release", "intact"),
            Map.entry("fragment", "none"),
            Map.entry("dissection", "none"),
            Map.entry("perforation", "none"),
            Map.entry("finalTimiFlow", "3"),
            Map.entry("harm", "mild"),
            Map.entry("procedureEnd", "completed-as-planned"),
            Map.entry("attempt1Technique", "steady-traction"),
            Map.entry("attempt1Result", "no-change"),
            Map.entry("attempt1Minutes", "3"),
            Map.entry("attempt2Technique", "parallel-balloon"),
            Map.entry("attempt2Result", "released"),
            Map.entry("attempt2Minutes", "21"),
            Map.entry("attempt2Enablers", "shaft-cut;sheath-removed"),
            Map.entry("uses", "14"));

    /** A file to begin with: the header and an invented row. */
    static Optional<String> template(String name, Period period) {
        return switch (name) {
            case "cases.csv" -> Optional.of(csv(Cases.columns(), period));
            case "activity.csv" -> Optional.of(csv(Activity.columns(), period));
            case "cases.ndjson" -> Optional.of(Rows.tree(example(period), Cases.columns()) + "\n");
            default -> Optional.empty();
        };
    }

    private static Map<String, String> example(Period period) {
        Map<String, String> cells = new HashMap<>(EXAMPLE);
        cells.put("period", period.toString());
        return cells;
    }

    private static String csv(List<CsvColumn> columns, Period period) {
        Map<String, String> cells = example(period);
        List<@Nullable Object> row = new ArrayList<>();
        columns.forEach(column -> row.add(cells.get(column.name())));
        return CsvWriter.write(
                new Table(List.of(), columns.stream().map(CsvColumn::name).toList(), List.of(row)), false);
    }

    /** Says what came of a file in the reader's language. */
    @Component
    static class Words {

        /** What a file can be refused for as a whole; any other refusal is not about the file. */
        private static final Set<Problem> OF_FILE =
                EnumSet.of(Problem.UNREADABLE_BODY, Problem.TOO_LARGE, Problem.REFUSED);

        private final MessageSource messages;

        Words(MessageSource messages) {
            this.messages = messages;
        }

        SentFile of(BulkOutcome outcome) {
            List<Wrong> wrong = new ArrayList<>();
            outcome.refusedRows().stream().limit(MOST_IN_FILE).forEach(row -> row.errors()
                    .forEach(error -> wrong.add(wrong(row.line(), error, Cases.columns()))));
            return new SentFile(
                    "cases",
                    outcome.stored(),
                    outcome.received(),
                    outcome.received() - outcome.refused(),
                    outcome.refused(),
                    outcome.created(),
                    outcome.changed(),
                    outcome.unchanged(),
                    outcome.queriedRows().size(),
                    shortened(wrong),
                    download(wrong),
                    outcome.notes());
        }

        SentFile of(CsvReading reading, boolean stored, String period) {
            List<Wrong> wrong = new ArrayList<>();
            reading.refusedRows().stream().limit(MOST_IN_FILE).forEach(row -> row.errors()
                    .forEach(error -> wrong.add(wrong(row.line(), error, Activity.columns()))));
            long refused = reading.refusedRows().size();
            return whole("activity", stored, reading.received(), refused, wrong);
        }

        SentFile of(String kind, Refusal refusal) {
            if (!OF_FILE.contains(refusal.problem())) {
                throw refusal;
            }
            List<Wrong> wrong = new ArrayList<>();
            refusal.errors()
                    .forEach(error -> wrong.add(wrong(
                            error.pointer().startsWith("/columns") ? 1L : null,
                            error,
                            kind.equals("cases") ? Cases.columns() : Activity.columns())));
            if (wrong.isEmpty()) {
                wrong.add(new Wrong(
                        null,
                        "",
                        String.valueOf(refusal.getMessage()),
                        refusal.problem().remedy()));
            }
            return whole(kind, false, 0, 0, wrong);
        }

        private static SentFile whole(String kind, boolean stored, long received, long refused, List<Wrong> wrong) {
            return new SentFile(
                    kind,
                    stored,
                    received,
                    received - refused,
                    refused,
                    0,
                    0,
                    0,
                    0,
                    shortened(wrong),
                    download(wrong),
                    List.of());
        }

        private static List<Wrong> shortened(List<Wrong> wrong) {
            return wrong.stream().limit(MOST_LISTED).toList();
        }

        private Wrong wrong(@Nullable Long line, FieldError error, List<CsvColumn> columns) {
            String mend =
                    messages.getMessage("case.error." + error.code(), null, null, LocaleContextHolder.getLocale());
            return new Wrong(
                    line,
                    CsvColumn.at(error.pointer(), columns).map(CsvColumn::name).orElse(""),
                    error.detail(),
                    mend == null ? "" : mend);
        }

        private static @Nullable String download(List<Wrong> wrong) {
            if (wrong.isEmpty()) {
                return null;
            }
            List<List<@Nullable Object>> rows = new ArrayList<>();
            wrong.stream().limit(MOST_IN_FILE).forEach(each -> {
                List<@Nullable Object> row = new ArrayList<>();
                row.add(each.line());
                row.add(each.field());
                row.add(each.what());
                row.add(each.mend());
                rows.add(row);
            });
            String csv = CsvWriter.write(new Table(List.of(), List.of("line", "field", "what", "mend"), rows), false);
            return "data:text/csv;charset=utf-8;base64,"
                    + Base64.getEncoder().encodeToString(csv.getBytes(StandardCharsets.UTF_8));
        }
    }
}
