package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.EntrapmentCase.Attempt;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The leaves of a case: the same field as a value of the record, a place in JSON, a column of CSV (contract, section 9)
 * and a column of the table {@code case_version}. Written down once, here, so that they cannot drift apart.
 */
public final class CaseColumns {

    /** What stands outside the attempts, in the order of a CSV row. */
    static final List<CaseColumn<EntrapmentCase>> LEAVES = List.of(
            leaf("", Field.PERIOD, EntrapmentCase::period),
            leaf("", Field.PROCEDURE_KEY, EntrapmentCase::procedureKey),
            leaf("/patient", Field.AGE_BAND, of -> of.patient().ageBand()),
            leaf("/patient", Field.SEX, of -> of.patient().sex()),
            leaf("/procedure", Field.PRESENTATION, of -> of.procedure().presentation()),
            leaf("/procedure", Field.URGENCY, of -> of.procedure().urgency()),
            leaf("/procedure", Field.ACCESS_SITE, of -> of.procedure().access()),
            leaf("/procedure", Field.GUIDE_FRENCH, of -> of.procedure().guideFrench()),
            leaf("/procedure", Field.OPERATOR_STAGE, of -> of.procedure().operatorStage()),
            leaf("/lesion", Field.VESSEL, of -> of.lesion().vessel()),
            leaf("/lesion", Field.POSITION, of -> of.lesion().position()),
            leaf("/lesion", Field.SEGMENT, of -> of.lesion().segment()),
            leaf("/lesion", Field.CALCIFICATION, of -> of.lesion().calcification()),
            leaf("/lesion", Field.TORTUOSITY, of -> of.lesion().tortuosity()),
            leaf("/lesion", Field.ANGULATION, of -> of.lesion().angulation()),
            leaf("/lesion", Field.TOTAL_OCCLUSION, of -> of.lesion().totalOcclusion()),
            leaf("/lesion", Field.STENT_LAYERS, of -> of.lesion().stentLayers()),
            leaf("/device", Field.DEVICE_CLASS, of -> of.device().deviceClass()),
            leaf("/device", Field.DEVICE_SIZE_MM, of -> of.device().deviceSizeMm()),
            leaf("/device", Field.DEVICE_IDENTIFIER, of -> of.device().deviceIdentifier()),
            leaf("/event", Field.MECHANISM, of -> of.event().mechanism()),
            leaf("/event", Field.PHASE, of -> of.event().phase()),
            leaf("/event", Field.HAEMODYNAMICS, of -> of.event().haemodynamics()),
            leaf("/event", Field.SHOCK_STAGE, of -> of.event().shockStage()),
            leaf("/event", Field.TIMI_FLOW, of -> of.event().timiFlow()),
            leaf("/event", Field.FRACTURED, of -> of.event().fractured()),
            leaf("/outcome", Field.RELEASE, of -> of.outcome().release()),
            leaf("/outcome", Field.FRAGMENT, of -> of.outcome().fragment()),
            leaf("/outcome", Field.DISSECTION, of -> of.outcome().dissection()),
            leaf("/outcome", Field.PERFORATION, of -> of.outcome().perforation()),
            leaf("/outcome", Field.FINAL_TIMI_FLOW, of -> of.outcome().finalTimiFlow()),
            leaf("/outcome", Field.COMPLICATIONS, of -> of.outcome().complications()),
            leaf("/outcome", Field.MI_DEFINITION, of -> of.outcome().miDefinition()),
            leaf("/outcome", Field.HARM, of -> of.outcome().harm()),
            leaf("/outcome", Field.PROCEDURE_END, of -> of.outcome().procedureEnd()));

    /** What stands in each attempt. */
    static final List<CaseColumn<Attempt>> ATTEMPT = List.of(
            leaf("", Field.TECHNIQUE, Attempt::technique),
            leaf("", Field.RESULT, Attempt::result),
            leaf("", Field.MINUTES_FROM_ENTRAPMENT, Attempt::minutesFromEntrapment),
            leaf("", Field.ENABLERS, Attempt::enablers));

    private static final List<CaseColumn<KeyedCase>> ALL = all();
    private static final List<CsvColumn> CSV = ALL.stream().map(CaseColumn::csv).toList();

    private CaseColumns() {}

    private static <T> CaseColumn<T> leaf(String place, Field field, Function<T, @Nullable Object> read) {
        CsvColumn.Kind kind =
                switch (field) {
                    case DEVICE_SIZE_MM, MINUTES_FROM_ENTRAPMENT -> CsvColumn.Kind.NUMBER;
                    case COMPLICATIONS, ENABLERS -> CsvColumn.Kind.SET;
                    default -> CsvColumn.Kind.TEXT;
                };
        return new CaseColumn<>(field, 0, new CsvColumn(field.code(), place + "/" + field.code(), kind), read);
    }

    private static List<CaseColumn<KeyedCase>> all() {
        List<CaseColumn<KeyedCase>> columns = new ArrayList<>();
        columns.add(leaf("", Field.CASE_KEY, KeyedCase::caseKey));
        LEAVES.forEach(leaf ->
                columns.add(new CaseColumn<>(leaf.field(), 0, leaf.csv(), keyed -> leaf.value(keyed.content()))));
        for (int number = 1; number <= EntrapmentCase.MOST_ATTEMPTS; number++) {
            for (CaseColumn<Attempt> leaf : ATTEMPT) {
                columns.add(ofAttempt(number, leaf));
            }
        }
        return List.copyOf(columns);
    }

    private static CaseColumn<KeyedCase> ofAttempt(int number, CaseColumn<Attempt> leaf) {
        String part = leaf.field() == Field.MINUTES_FROM_ENTRAPMENT ? "minutes" : leaf.name();
        return new CaseColumn<>(
                leaf.field(),
                number,
                new CsvColumn(
                        "attempt" + number + part.substring(0, 1).toUpperCase(Locale.ROOT) + part.substring(1),
                        "/attempts/" + (number - 1) + leaf.csv().pointer(),
                        leaf.csv().kind()),
                keyed -> {
                    List<Attempt> attempts = keyed.content().attempts();
                    return number > attempts.size() ? null : leaf.value(attempts.get(number - 1));
                });
    }

    /** Every column that a file of cases may have: the key, the leaves, and up to twelve attempts. */
    public static List<CaseColumn<KeyedCase>> columns() {
        return ALL;
    }

    /** The same as a file names them. */
    static List<CsvColumn> csv() {
        return CSV;
    }

    /** The column of this name. */
    public static Optional<CaseColumn<KeyedCase>> named(String name) {
        return ALL.stream().filter(column -> column.name().equals(name)).findFirst();
    }

    /**
     * The column of a field.
     *
     * @param attempt the attempt it belongs to, from 1; 0 for none
     */
    public static CaseColumn<KeyedCase> of(Field field, int attempt) {
        return ALL.stream()
                .filter(column -> column.field() == field && column.attempt() == attempt)
                .findFirst()
                .orElseThrow();
    }

    /** The column to look at for an error at this JSON pointer; empty where it is about the whole case. */
    public static Optional<CaseColumn<KeyedCase>> at(String pointer) {
        return CsvColumn.at(pointer, CSV).flatMap(column -> named(column.name()));
    }

    static String sqlList(List<? extends CaseColumn<?>> columns) {
        return columns.stream().map(column -> column.field().column()).collect(joining(", "));
    }

    /** For each field that can be unknown or absent, the condition under which it is, on {@code case_version c}. */
    static Map<String, String> unknown() {
        Map<String, String> unknown = new LinkedHashMap<>();
        for (CaseColumn<EntrapmentCase> leaf : LEAVES) {
            Field field = leaf.field();
            if (field.mayBeUnknown()) {
                String condition = "c.%s = '%s'".formatted(field.column(), Code.UNKNOWN);
                String meaning = meaning(field.code());
                unknown.put(field.code(), meaning.equals("true") ? condition : condition + " and " + meaning);
            } else if (field == Field.SEGMENT || field == Field.DEVICE_SIZE_MM) {
                unknown.put(field.code(), "c." + field.column() + " is null");
            }
        }
        unknown.put(
                CompletenessTally.MINUTES,
                "exists (select 1 from attempt a where a.revision = c.revision and a.minutes_from_entrapment is null)");
        return unknown;
    }

    /** The condition under which a field means something: a definition of infarction needs an infarction. */
    static String meaning(String field) {
        return field.equals(Field.MI_DEFINITION.code()) ? "'periprocedural-mi' = any (c.complications)" : "true";
    }

    /** One line of the database's COPY text. */
    static <T> String copyLine(Stream<String> first, List<CaseColumn<T>> columns, T of) {
        return Stream.concat(first, columns.stream().map(column -> column.copyText(of)))
                        .collect(joining("\t")) + "\n";
    }
}
