package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Identifying;
import entrapment.registry.intake.Parameters;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Period;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Which of a centre's cases to list.
 *
 * @param keyPrefix what their keys begin with; empty for any
 * @param filters for each leaf of a case that is asked for, the values that will do
 * @param page from 1
 * @param size cases on a page, 1 to {@value #LARGEST_PAGE}
 * @param asOf the revision to list as of; null for the newest
 */
public record CaseQuery(
        String centre,
        String keyPrefix,
        Map<Field, List<?>> filters,
        long page,
        long size,
        @Nullable Long asOf) {

    /** The most cases on a page. */
    public static final long LARGEST_PAGE = 200;

    private static final List<CaseColumn<EntrapmentCase>> FILTERS = CaseColumns.LEAVES.stream()
            .filter(column -> column.csv().kind() != CsvColumn.Kind.SET)
            .toList();

    /** What cases may be looked for by: every leaf of a case that holds one value. */
    public static List<Field> filterFields() {
        return FILTERS.stream().map(CaseColumn::field).toList();
    }

    /** Reads the query of a URL. */
    public static Reading<CaseQuery> of(String centre, Map<String, List<String>> given) {
        return Parameters.read(given, parameters -> {
            Map<Field, List<?>> filters = new EnumMap<>(Field.class);
            for (CaseColumn<EntrapmentCase> column : FILTERS) {
                List<?> values = parameters.list(column.name()).stream()
                        .map(value -> value(column, value, parameters))
                        .toList();
                if (!values.isEmpty()) {
                    filters.put(column.field(), values);
                }
            }
            return new CaseQuery(
                    centre,
                    keyPrefix(parameters),
                    filters,
                    parameters.whole("page", 1, 1_000_000).orElse(1L),
                    parameters.whole("size", 1, LARGEST_PAGE).orElse(50L),
                    parameters.whole("asOf", 0, Long.MAX_VALUE).orElse(null));
        });
    }

    private static String keyPrefix(Parameters parameters) {
        String prefix = parameters.one("caseKeyPrefix").orElse("").strip();
        if (!prefix.matches("[A-Za-z0-9-]{0,40}") || Identifying.looksLike(prefix)) {
            parameters.refuse(
                    "caseKeyPrefix", "key-format", "caseKeyPrefix must be the first of A-Z a-z 0-9 - of a key");
            return "";
        }
        return prefix;
    }

    private static Object value(CaseColumn<EntrapmentCase> column, String value, Parameters parameters) {
        String name = column.name();
        if (column.csv().kind() == CsvColumn.Kind.NUMBER) {
            if (value.matches("[0-9]{1,2}(\\.[0-9]{1,2})?")) {
                return new BigDecimal(value);
            }
            parameters.refuse(name, "wrong-type", name + " must be a number");
        }
        List<Code> codes = column.field().codes();
        if (!codes.isEmpty() && column.field().find(value).isEmpty()) {
            parameters.refuse(
                    name,
                    "not-a-code",
                    name + " must be one of " + codes.stream().map(Code::code).collect(joining(", ")));
        }
        if (name.equals("period") && Period.parse(value).isEmpty()) {
            parameters.refuse(
                    name, "not-a-period", name + " must be a period, YYYY-Qn or YYYY as the network has them");
        }
        if (name.equals("procedureKey")) {
            Identifying.checkKey(parameters, name, value);
        }
        if (name.equals("deviceIdentifier") && !DeviceIdentifier.valid(value)) {
            parameters.refuse(name, "not-a-device-identifier", name + " " + DeviceIdentifier.RULE);
        }
        return value;
    }

    /** The periods that are asked for, of either resolution. */
    List<Period> periods() {
        return filters.getOrDefault(Field.PERIOD, List.of()).stream()
                .flatMap(text -> Period.parse(String.valueOf(text)).stream())
                .toList();
    }

    /** The filters as conditions on the columns of {@code case_version}. */
    String condition() {
        return FILTERS.stream()
                .filter(column -> filters.containsKey(column.field()))
                .map(column -> " and c." + column.field().column() + " in (:" + column.name() + ")")
                .collect(joining("", keyPrefix.isEmpty() ? "" : " and starts_with(c.case_key, :keyPrefix)", ""));
    }

    Map<String, Object> parameters() {
        Map<String, Object> parameters = new HashMap<>();
        filters.forEach((field, values) -> parameters.put(field.code(), values));
        parameters.put("keyPrefix", keyPrefix);
        parameters.put("centre", centre);
        return parameters;
    }
}
