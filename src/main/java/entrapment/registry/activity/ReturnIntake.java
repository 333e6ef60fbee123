package entrapment.registry.activity;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Rows;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Period.Resolution;
import java.io.InputStream;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/** Reads a return as a centre sends it, with every rule that can refuse it. */
@Component
class ReturnIntake {

    private static final int MOST_ROWS = 20_000;
    private static final String TOO_MANY_USES = "the uses of one return must add up to at most " + UseCount.MOST_USES;

    /** The factors, then the uses. */
    static final List<CsvColumn> COLUMNS = Stream.concat(
                    Stream.of(Factor.values())
                            .map(factor -> new CsvColumn(
                                    factor.code(),
                                    "/" + factor.code(),
                                    factor == Factor.DEVICE_SIZE_MM ? CsvColumn.Kind.NUMBER : CsvColumn.Kind.TEXT)),
                    Stream.of(new CsvColumn("uses", "/uses", CsvColumn.Kind.NUMBER)))
            .toList();

    private final Clock clock;
    private final Settings settings;

    ReturnIntake(Clock clock, Settings settings) {
        this.clock = clock;
        this.settings = settings;
    }

    /** Reads a return sent as JSON: an object whose {@code rows} is an array of counts, or the array alone. */
    Reading<ActivityReturn> readJson(JsonNode body, String period) {
        Reading<Period> read = period(period);
        if (read instanceof Reading.Refused<Period> refused) {
            return new Reading.Refused<>(refused.errors());
        }
        JsonNode object = body.isArray() ? JsonNodeFactory.instance.objectNode().set("rows", body) : body;
        Reading<ActivityReturn> reading = Fields.read(object, fields -> {
            if (!fields.has("rows")) {
                fields.refuse("rows", "missing", "rows is required; an empty array says that nothing was used");
            }
            List<UseCount> rows = fields.objects("rows", MOST_ROWS, UseCount::read);
            if (tooMany(rows)) {
                fields.refuse("rows", "too-many-uses", TOO_MANY_USES);
            }
            return ActivityReturn.of(read.orRefuse(), rows);
        });
        return body.isArray() ? withoutRows(reading) : reading;
    }

    /** A bare array has no property {@code rows} to point at. */
    private static Reading<ActivityReturn> withoutRows(Reading<ActivityReturn> reading) {
        return reading instanceof Reading.Refused<ActivityReturn> refused
                ? new Reading.Refused<>(refused.errors().stream()
                        .map(error -> new FieldError(
                                error.pointer().replaceFirst("^/rows", ""), error.code(), error.detail()))
                        .toList())
                : reading;
    }

    private static boolean tooMany(List<UseCount> rows) {
        return rows.stream().mapToLong(UseCount::uses).sum() > UseCount.MOST_USES;
    }

    /** Reads a return sent as CSV with the columns of contract, section 4. */
    CsvReading readCsv(InputStream body, String period) {
        Period read = period(period).orRefuse();
        List<UseCount> counts = new ArrayList<>();
        List<CsvReading.RefusedRow> refused = new ArrayList<>();
        Rows.csv(body, COLUMNS, row -> {
            Reading<UseCount> reading = row.tree() instanceof Reading.Valid<JsonNode> tree
                    ? Fields.read(tree.value(), UseCount::read)
                    : new Reading.Refused<>(((Reading.Refused<JsonNode>) row.tree()).errors());
            if (reading instanceof Reading.Valid<UseCount> valid) {
                counts.add(valid.value());
            } else if (reading instanceof Reading.Refused<UseCount> wrong) {
                refused.add(new CsvReading.RefusedRow(row.line(), wrong.errors()));
            }
            if (counts.size() + refused.size() > MOST_ROWS) {
                throw Problem.TOO_LARGE.refusal("A return may have at most " + MOST_ROWS + " rows.");
            }
        });
        if (tooMany(counts)) {
            throw Problem.refused(List.of(new FieldError("", "too-many-uses", TOO_MANY_USES)));
        }
        return new CsvReading(
                refused.isEmpty() ? Optional.of(ActivityReturn.of(read, counts)) : Optional.empty(),
                counts.size() + refused.size(),
                refused);
    }

    private Reading<Period> period(String text) {
        Resolution resolution = settings.periodResolution();
        Optional<Period> period = Period.parse(text).filter(given -> given.resolution() == resolution);
        Period latest = Period.of(LocalDate.now(clock), resolution);
        if (period.isEmpty()) {
            return new Reading.Refused<>(
                    List.of(new FieldError("/period", "not-a-period", "period " + resolution.rule())));
        }
        if (period.get().compareTo(latest) > 0) {
            return new Reading.Refused<>(List.of(new FieldError(
                    "/period",
                    "period-in-future",
                    "period must not be after the current " + resolution.code() + ", " + latest)));
        }
        return new Reading.Valid<>(period.get());
    }
}
