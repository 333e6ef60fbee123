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
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/**
 * The result of a file that a person sent.
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
    record Wrong(@Nullable Long line, String field, String what, String fix) {}

    /** Explains the result in the reader's language. */
    @Component
    static class Explainer {

        /** What a file can be refused for as a whole; any other refusal is not about the file. */
        private static final Set<Problem> OF_FILE =
                EnumSet.of(Problem.UNREADABLE_BODY, Problem.TOO_LARGE, Problem.REFUSED);

        private final MessageSource messages;

        Explainer(MessageSource messages) {
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

        SentFile of(CsvReading reading, boolean stored) {
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
            String fix = messages.getMessage("case.error." + error.code(), null, null, LocaleContextHolder.getLocale());
            return new Wrong(
                    line,
                    CsvColumn.at(error.pointer(), columns).map(CsvColumn::name).orElse(""),
                    error.detail(),
                    fix == null ? "" : fix);
        }

        private static @Nullable String download(List<Wrong> wrong) {
            if (wrong.isEmpty()) {
                return null;
            }
            List<List<@Nullable Object>> rows = new ArrayList<>();
            wrong.stream()
                    .limit(MOST_IN_FILE)
                    .forEach(each -> rows.add(Arrays.asList(each.line(), each.field(), each.what(), each.fix())));
            String csv = CsvWriter.write(new Table(List.of(), List.of("line", "field", "what", "fix"), rows), false);
            return "data:text/csv;charset=utf-8;base64,"
                    + Base64.getEncoder().encodeToString(csv.getBytes(StandardCharsets.UTF_8));
        }
    }
}
