package entrapment.registry.calculations;

import static entrapment.registry.calculations.CountFields.MOST;
import static entrapment.registry.calculations.CountFields.MOST_ROWS;
import static entrapment.registry.calculations.CountFields.confidence;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.MissingnessAnalysis;
import entrapment.registry.stats.Proportion;
import java.util.List;
import java.util.function.Supplier;

/** Bodies about missing and contradictory data. */
final class QualityCalculations {

    private QualityCalculations() {}

    static Supplier<Record> missingness(Fields fields) {
        long records = fields.requiredWhole("records", 0, MOST);
        List<MissingnessAnalysis.Missing> missing = fields.requiredObjects(
                "missing",
                MOST_ROWS,
                field -> new MissingnessAnalysis.Missing(
                        field.requiredText("name"), field.requiredWhole("missing", 0, records)));
        long complete = fields.requiredWhole("completeCases", 0, MOST);
        long most = missing.stream()
                .mapToLong(MissingnessAnalysis.Missing::missing)
                .max()
                .orElse(0);
        long all =
                missing.stream().mapToLong(MissingnessAnalysis.Missing::missing).sum();
        if ((complete > records - most || complete < records - all) && fields.sound("")) {
            fields.refuse(
                    "completeCases",
                    "out-of-range",
                    "completeCases must be at most records less the largest missing, and at least records less all"
                            + " missing");
        }
        Confidence confidence = confidence(fields);
        return () -> MissingnessAnalysis.of(records, missing, complete, confidence);
    }

    static Supplier<Record> missingOutcomeBounds(Fields fields) {
        Proportion known = CountFields.proportion(fields, "events", "known");
        long missing = fields.requiredWhole("missingOutcome", 0, MOST - known.of());
        Confidence confidence = confidence(fields);
        return () -> MissingOutcomeBoundsAnalysis.of(known, missing, confidence);
    }

    /** Counts that contradict each other are what this is asked about, so they are not refused. */
    static Supplier<Record> discordance(Fields fields) {
        List<DiscordanceAnalysis.Row> rows = fields.requiredObjects(
                "rows",
                MOST_ROWS,
                row -> new DiscordanceAnalysis.Row(
                        row.requiredText("name"), row.whole("numerator", -MOST, MOST), row.whole("of", -MOST, MOST)));
        return () -> DiscordanceAnalysis.of(rows);
    }
}
