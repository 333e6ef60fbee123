package entrapment.registry.cases.web;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Identifying;
import entrapment.registry.intake.Rows;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Period;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntUnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import tools.jackson.databind.node.ObjectNode;

/**
 * A case as it stands on a form: what was typed, under the names of the columns of CSV. So a form, a row and a body of JSON
 * become the same tree, and are refused by the same rules.
 *
 * @param values by column, as a cell of CSV has them; a column that is not there is blank
 * @param attempts how many attempts the form has room for, 1 to {@value EntrapmentCase#MOST_ATTEMPTS}
 */
record CaseForm(Map<String, String> values, int attempts) {

    private static final List<CaseColumn<KeyedCase>> COLUMNS = CaseColumns.columns();
    private static final Pattern MOVE = Pattern.compile("(remove|up|down)-([0-9]{1,2})");
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,4}([.,][0-9]{1,2})?");
    private static final Pattern KEY = Pattern.compile("[A-Za-z0-9-]{6,40}");

    CaseForm {
        values = Map.copyOf(values);
    }

    /** What a browser sent; other parameters are passed over. */
    static CaseForm of(Map<String, List<String>> sent) {
        Map<String, String> values = new LinkedHashMap<>();
        for (CaseColumn<KeyedCase> column : COLUMNS) {
            String cell = sent.getOrDefault(column.name(), List.of()).stream()
                    .map(String::strip)
                    .filter(value -> !value.isEmpty())
                    .collect(joining(";"));
            if (!cell.isEmpty()) {
                values.put(column.name(), column.csv().kind() == CsvColumn.Kind.NUMBER ? cell.replace(',', '.') : cell);
            }
        }
        String rows =
                sent.getOrDefault("attempts", List.of("1")).stream().findFirst().orElse("1");
        int told = rows.matches("[0-9]{1,2}") ? Integer.parseInt(rows) : 1;
        int filled = COLUMNS.stream()
                .filter(column -> values.containsKey(column.name()))
                .mapToInt(CaseColumn::attempt)
                .max()
                .orElse(1);
        return new CaseForm(values, within(Math.max(told, filled)));
    }

    static CaseForm of(KeyedCase stored) {
        Map<String, String> values = new LinkedHashMap<>();
        for (CaseColumn<KeyedCase> column : COLUMNS) {
            String cell = column.cell(stored);
            if (!cell.isEmpty()) {
                values.put(column.name(), cell);
            }
        }
        return new CaseForm(values, within(stored.content().attempts().size()));
    }

    private static int within(int attempts) {
        return Math.max(1, Math.min(EntrapmentCase.MOST_ATTEMPTS, attempts));
    }

    String caseKey() {
        return value(CaseColumns.of(Field.CASE_KEY, 0));
    }

    /** What stands in a column; empty where it is blank. */
    String value(CaseColumn<KeyedCase> column) {
        return values.getOrDefault(column.name(), "");
    }

    /** The same with another value of a column. */
    CaseForm with(String name, String value) {
        Map<String, String> changed = new LinkedHashMap<>(values);
        changed.put(name, value);
        return new CaseForm(changed, attempts);
    }

    /** The case as the API would have been sent it. */
    ObjectNode tree() {
        return Rows.tree(values, Cases.columns());
    }

    /** What is shown again: a code or a number of the right shape, a key that names nobody; nothing else that was typed. */
    private String shown(CaseColumn<KeyedCase> column) {
        String value = value(column);
        Field field = column.field();
        if (!field.codes().isEmpty()) {
            return Stream.of(value.split(";", -1))
                    .map(String::strip)
                    .filter(code -> field.find(code).isPresent())
                    .collect(joining(";"));
        }
        boolean right =
                switch (field) {
                    case PERIOD -> Period.parse(value).isPresent();
                    case CASE_KEY, PROCEDURE_KEY -> KEY.matcher(value).matches() && !Identifying.looksLike(value);
                    case DEVICE_IDENTIFIER -> value.matches("[0-9]{14}");
                    default -> NUMBER.matcher(value).matches();
                };
        return right ? value : "";
    }

    /** The same without what must not be shown again. */
    CaseForm shown() {
        Map<String, String> kept = new LinkedHashMap<>();
        COLUMNS.forEach(column -> kept.put(column.name(), shown(column)));
        return new CaseForm(kept, attempts);
    }

    /** The errors by the column to look at, one a column; those about the whole under an empty name. */
    static Map<String, FieldError> byColumn(List<FieldError> errors) {
        Map<String, FieldError> byColumn = new LinkedHashMap<>();
        errors.forEach(error -> {
            String column =
                    CaseColumns.at(error.pointer()).map(CaseColumn::name).orElse("");
            byColumn.putIfAbsent(column, error);
        });
        return byColumn;
    }

    /** The form with an attempt more, or less, or in another place; the same where the action asks for nothing of it. */
    CaseForm after(String action) {
        if (action.equals("add-attempt")) {
            return new CaseForm(values, within(attempts + 1));
        }
        Matcher move = MOVE.matcher(action);
        int number = move.matches() ? Integer.parseInt(move.group(2)) : 0;
        if (number < 1 || number > attempts) {
            return this;
        }
        return switch (move.group(1)) {
            case "up" -> number > 1 ? swapped(number, number - 1) : this;
            case "down" -> number < attempts ? swapped(number, number + 1) : this;
            default -> removed(number);
        };
    }

    private CaseForm swapped(int one, int other) {
        return renumbered(number -> number == one ? other : number == other ? one : number, attempts);
    }

    private CaseForm removed(int gone) {
        return renumbered(number -> number == gone ? 0 : number > gone ? number - 1 : number, within(attempts - 1));
    }

    private CaseForm renumbered(IntUnaryOperator place, int left) {
        Map<String, String> moved = new LinkedHashMap<>();
        for (CaseColumn<KeyedCase> column : COLUMNS) {
            int number = column.attempt();
            int now = number == 0 ? 0 : place.applyAsInt(number);
            if (values.containsKey(column.name()) && (number == 0 || now > 0)) {
                moved.put(CaseColumns.of(column.field(), now).name(), value(column));
            }
        }
        return new CaseForm(moved, left);
    }

    /** The part to go on with after an action on the attempts. */
    String next(String action) {
        Matcher move = MOVE.matcher(action);
        if (action.equals("add-attempt")) {
            return "attempt" + within(attempts + 1) + "Technique";
        }
        int number = move.matches() ? Integer.parseInt(move.group(2)) : 1;
        int now =
                switch (move.matches() ? move.group(1) : "") {
                    case "up" -> number - 1;
                    case "down" -> number + 1;
                    default -> number - 1;
                };
        return "attempt" + Math.max(1, Math.min(attempts, now)) + "Technique";
    }
}
