package entrapment.registry.cases;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.BulkOutcome.QueriedRow;
import entrapment.registry.cases.BulkOutcome.RefusedRow;
import entrapment.registry.cases.Cases.BulkMode;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Rows.Row;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/**
 * Many cases on their way in. Rows are checked while they arrive and the accepted ones kept in two temporary files, so
 * that neither memory nor a database connection is held by a slow sender. The files hold accepted codes only, and are
 * gone when the batch is closed.
 */
final class CaseBatch implements AutoCloseable {

    /** More rows than this in one body are refused; the keys seen so far are held in memory. */
    private static final int MOST_ROWS = 250_000;

    private final String centre;
    private final CaseIntake intake;
    private final CaseWriter writer;
    private final Path folder;
    private final BufferedWriter cases;
    private final BufferedWriter attempts;
    private final Set<String> keys = new HashSet<>();
    private final List<RefusedRow> refusedRows = new ArrayList<>();
    private final List<QueriedRow> queriedRows = new ArrayList<>();
    private final Set<Long> mayBeReportable = new HashSet<>();
    private long received;
    private long refused;

    CaseBatch(String centre, CaseIntake intake, CaseWriter writer) {
        this.centre = centre;
        this.intake = intake;
        this.writer = writer;
        try {
            folder = Files.createTempDirectory("entrapment-batch");
            cases = Files.newBufferedWriter(folder.resolve("cases"));
            attempts = Files.newBufferedWriter(folder.resolve("attempts"));
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }

    /** Checks one row and keeps it if nothing is wrong with it. */
    void add(Row row) {
        if (++received > MOST_ROWS) {
            throw Problem.TOO_LARGE.refusal("A body may have at most " + MOST_ROWS + " cases.");
        }
        Reading<KeyedCase> reading = row.tree() instanceof Reading.Valid<JsonNode> tree
                ? intake.read(tree.value())
                : new Reading.Refused<>(((Reading.Refused<JsonNode>) row.tree()).errors());
        if (reading instanceof Reading.Refused<KeyedCase> wrong) {
            refuse(row.line(), wrong.errors());
        } else if (reading instanceof Reading.Valid<KeyedCase> valid) {
            keep(row.line(), valid.value());
        }
    }

    private void keep(long line, KeyedCase keyed) {
        if (!keys.add(keyed.caseKey())) {
            refuse(line, List.of(new FieldError("/caseKey", "repeated-key", "an earlier row has the same caseKey")));
            return;
        }
        CaseWriter.CopyText text = writer.copyText(centre, line, keyed);
        try {
            cases.write(text.caseLine());
            attempts.write(text.attemptLines());
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
        if (!IncidentSign.of(keyed.content()).isEmpty()) {
            mayBeReportable.add(line);
        }
        List<DataQuery> queries = CaseRule.queries(keyed.content());
        if (!queries.isEmpty() && queriedRows.size() < BulkOutcome.MOST_LISTED) {
            queriedRows.add(new QueriedRow(line, keyed.caseKey(), queries));
        }
    }

    /** Counts a row as refused. */
    private void refuse(long line, List<FieldError> errors) {
        refused++;
        mayBeReportable.remove(line);
        if (refusedRows.size() < BulkOutcome.MOST_LISTED) {
            refusedRows.add(new RefusedRow(line, List.copyOf(errors)));
        }
    }

    /** Whether a row is wrong that makes the whole batch so. */
    boolean isRefused(BulkMode mode) {
        return refused > 0 && !mode.keepValid() && !mode.onlyCheck();
    }

    /** Stores what was accepted, in this transaction; where that is not wanted, it is to be rolled back. */
    BulkOutcome publish(BulkMode mode, Viewer viewer) {
        stage();
        CaseWriter.Compared compared = writer.compare();
        writer.takeOutWithdrawn()
                .forEach(line -> refuse(
                        line,
                        List.of(new FieldError(
                                "/caseKey",
                                "case-withdrawn",
                                "the case of this key was withdrawn; send it alone with If-Match to reinstate it"))));
        if (mode.onlyCheck()) {
            return outcome(false, compared);
        }
        if (isRefused(mode)) {
            return outcome();
        }
        writer.publish(viewer);
        return outcome(true, compared);
    }

    private void stage() {
        try {
            cases.close();
            attempts.close();
            try (InputStream caseLines = Files.newInputStream(folder.resolve("cases"));
                    InputStream attemptLines = Files.newInputStream(folder.resolve("attempts"))) {
                writer.stage(caseLines, attemptLines);
            }
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }

    /** What came of a batch of which nothing was stored. */
    BulkOutcome outcome() {
        return outcome(false, new CaseWriter.Compared(0, 0, 0));
    }

    private BulkOutcome outcome(boolean stored, CaseWriter.Compared compared) {
        refusedRows.sort(Comparator.comparingLong(RefusedRow::line));
        return new BulkOutcome(
                stored,
                received,
                compared.created(),
                compared.changed(),
                compared.unchanged(),
                refused,
                List.copyOf(refusedRows),
                List.copyOf(queriedRows),
                mayBeReportable.size(),
                mayBeReportable.isEmpty() ? List.of() : List.of(IncidentSign.NOTE_OF_MANY));
    }

    @Override
    public void close() {
        try {
            cases.close();
            attempts.close();
            Files.deleteIfExists(folder.resolve("cases"));
            Files.deleteIfExists(folder.resolve("attempts"));
            Files.deleteIfExists(folder);
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }
}
