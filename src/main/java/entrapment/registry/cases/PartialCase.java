package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.intake.CsvColumn;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Selection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What is known of a case, to find the cases like it.
 *
 * @param selection by place, time, and the factors that cases share with uses
 * @param leaves for each other leaf of a case that is asked for, the codes that will do
 */
public record PartialCase(Selection selection, Map<String, List<String>> leaves) {

    private static final List<CaseColumn<EntrapmentCase>> COLUMNS = CaseColumns.LEAVES.stream()
            .filter(column -> column.csv().kind() != CsvColumn.Kind.SET)
            .filter(column -> !column.field().codes().isEmpty())
            .filter(column -> Factor.of(column.name()).isEmpty())
            .toList();

    /** The leaves of a case that hold one code and are no {@link Factor}, in the order of a CSV row. */
    public static final List<String> LEAVES =
            COLUMNS.stream().map(CaseColumn::name).toList();

    /** Every case of a selection. */
    public static PartialCase of(Selection selection) {
        return new PartialCase(selection, Map.of());
    }

    /** The codes that a leaf can have. */
    public static List<String> codes(String leaf) {
        return Field.of(leaf).map(Field::codes).orElse(List.of()).stream()
                .map(Code::code)
                .toList();
    }

    /** Whether it says how a case ended, which is not known while a way out is sought. */
    public boolean saysHowItEnded() {
        return COLUMNS.stream()
                .anyMatch(
                        column -> column.csv().pointer().startsWith("/outcome/") && leaves.containsKey(column.name()));
    }

    /** The same without one of its filters, by the name of its parameter. */
    public PartialCase without(String filter) {
        Map<Factor, List<String>> levels = new LinkedHashMap<>(selection.levels());
        levels.keySet().removeIf(factor -> factor.code().equals(filter));
        Map<String, List<String>> others = new LinkedHashMap<>(leaves);
        others.remove(filter);
        return new PartialCase(
                new Selection(
                        filter.equals("centre") ? List.of() : selection.centres(),
                        filter.equals("from") ? null : selection.from(),
                        filter.equals("to") ? null : selection.to(),
                        levels),
                others);
    }

    /** The same at one centre alone. */
    public PartialCase at(String centre) {
        return new PartialCase(
                new Selection(List.of(centre), selection.from(), selection.to(), selection.levels()), leaves);
    }

    /** As a condition on {@code case_version c}, beside which no table may have the columns of {@link Selection}. */
    String condition() {
        String others = COLUMNS.stream()
                .filter(column -> leaves.containsKey(column.name()))
                .map(column -> " and c." + column.field().column() + " in (:" + column.name() + ")")
                .collect(joining());
        return selection.cellCondition() + " and " + selection.factorCondition() + others;
    }

    Map<String, Object> parameters() {
        Map<String, Object> parameters = new LinkedHashMap<>(selection.parameters());
        parameters.putAll(leaves);
        return parameters;
    }
}
