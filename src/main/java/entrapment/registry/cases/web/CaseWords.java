package entrapment.registry.cases.web;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.CaseChange;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.Query;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Vocabulary;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** A case in words, for people: labels instead of codes, questions instead of names of fields. */
@Component
class CaseWords {

    /** The parts of a case in the order people think of them, the attempts aside; what matters less stands last. */
    static final Map<String, List<String>> SECTIONS = sections();

    /** After this section come the attempts. */
    static final String BEFORE_ATTEMPTS = "state";

    private final MessageSource messages;

    CaseWords(MessageSource messages) {
        this.messages = messages;
    }

    private static Map<String, List<String>> sections() {
        Map<String, List<String>> sections = new LinkedHashMap<>();
        sections.put(
                "stuck", List.of("deviceClass", "deviceSizeMm", "deviceIdentifier", "mechanism", "phase", "fractured"));
        sections.put(
                "where",
                List.of(
                        "vessel",
                        "position",
                        "segment",
                        "calcification",
                        "tortuosity",
                        "angulation",
                        "totalOcclusion",
                        "stentLayers"));
        sections.put("state", List.of("haemodynamics", "timiFlow", "shockStage"));
        sections.put("out", List.of("release", "fragment"));
        sections.put(
                "patient",
                List.of(
                        "harm",
                        "procedureEnd",
                        "finalTimiFlow",
                        "dissection",
                        "perforation",
                        "complications",
                        "miDefinition"));
        sections.put(
                "rest", List.of("guideFrench", "access", "operatorStage", "ageBand", "sex", "presentation", "urgency"));
        sections.put("kept", List.of("period", "caseKey", "procedureKey"));
        return sections;
    }

    /** One field in words. */
    record Line(String label, String value) {}

    /** One part of a case in words: what is known of it, and the names of what is not. */
    record Part(String title, List<Line> lines, List<String> unknown) {}

    /** One attempt in words. */
    record Tried(
            int number,
            String technique,
            String result,
            @Nullable String minutes,
            String enablers) {}

    /** A field that differs between two versions. */
    record Change(String label, String before, String after) {}

    /** A version of a case: what was done, when, by whom, and what it changed. */
    record Step(String what, String at, String by, List<Change> changes) {}

    String text(String key, Object... arguments) {
        return messages.getMessage(key, arguments, LocaleContextHolder.getLocale());
    }

    private @Nullable String textOrNull(String key) {
        return messages.getMessage(key, null, null, LocaleContextHolder.getLocale());
    }

    /** What a column is called on a page. */
    String label(String column) {
        int attempt = CaseForm.attempt(column);
        String field = text("case.field." + CaseForm.field(column));
        return attempt == 0 ? field : text("case.ofAttempt", attempt, field);
    }

    /** A line of help beside a field; empty where its name is enough. */
    String help(String field) {
        String help = textOrNull("case.help." + field);
        return help == null ? "" : help;
    }

    /** What is wrong with a field, and what to do about it. */
    String error(FieldError error) {
        String text = textOrNull("case.error." + error.code());
        return text == null ? error.detail() : text;
    }

    /** A question to the sender. */
    Line query(Query query) {
        String column = CaseForm.column(query.pointer());
        String text = textOrNull("case.query." + query.rule());
        return new Line(column == null ? "" : label(column), text == null ? query.detail() : text);
    }

    static List<? extends Code> codes(String field) {
        return Vocabulary.fields().getOrDefault(field, List.of());
    }

    /** The label of a code. */
    static String label(String field, String code) {
        return codes(field).stream()
                .filter(each -> each.code().equals(code))
                .map(Code::label)
                .findFirst()
                .orElse(code);
    }

    /** The value of a column; empty where it is not known. */
    private String value(String column, String cell) {
        String field = CaseForm.field(column);
        if (cell.isEmpty() || cell.equals(Factor.UNKNOWN)) {
            return "";
        }
        return switch (field) {
            case "deviceSizeMm" -> text("case.mm", cell);
            case "minutesFromEntrapment" -> text("case.minutes", cell);
            default ->
                Stream.of(cell.split(";", -1)).map(code -> label(field, code)).collect(joining(", "));
        };
    }

    /** The parts of a case. */
    List<Part> parts(CaseForm form) {
        return SECTIONS.entrySet().stream()
                .map(section -> part(section.getKey(), section.getValue(), form))
                .toList();
    }

    private Part part(String name, List<String> columns, CaseForm form) {
        List<Line> lines = new ArrayList<>();
        List<String> unknown = new ArrayList<>();
        for (String column : columns) {
            String value = value(column, form.values().getOrDefault(column, ""));
            if (!value.isEmpty()) {
                lines.add(new Line(label(column), value));
            } else if (!List.of("deviceIdentifier", "procedureKey", "complications", "miDefinition")
                    .contains(column)) {
                unknown.add(label(column));
            }
        }
        return new Part(text("case.section." + name), lines, unknown);
    }

    /** The attempts of a case, in the order tried. */
    List<Tried> tried(CaseForm form) {
        List<Tried> tried = new ArrayList<>();
        for (int number = 1; number <= form.attempts(); number++) {
            String name = "attempt" + number;
            if (form.values().containsKey(name + "Technique")) {
                tried.add(new Tried(
                        number,
                        in(form, name + "Technique"),
                        in(form, name + "Result"),
                        form.values().get(name + "Minutes"),
                        in(form, name + "Enablers")));
            }
        }
        return tried;
    }

    private String in(CaseForm form, String column) {
        return value(column, form.values().getOrDefault(column, ""));
    }

    /** A case in a sentence or two. */
    String sentence(CaseForm form) {
        String size = in(form, "deviceSizeMm");
        String where = Stream.of("vessel", "position")
                .map(column -> in(form, column))
                .filter(value -> !value.isEmpty())
                .collect(joining(", "));
        List<Tried> tried = tried(form);
        Tried last = tried.get(tried.size() - 1);
        return text(
                "case.sentence",
                in(form, "deviceClass") + (size.isEmpty() ? "" : ", " + size),
                where.isEmpty() ? text("case.somewhere") : where,
                tried.size(),
                last.technique(),
                last.result(),
                in(form, "release"),
                in(form, "harm"));
    }

    /** What differs between two versions, field by field. */
    List<Change> changes(CaseForm before, CaseForm after) {
        return Cases.columns().stream()
                .map(CsvColumn::name)
                .filter(column -> !column.equals("caseKey"))
                .map(column -> new Change(label(column), shown(before, column), shown(after, column)))
                .filter(change -> !change.before().equals(change.after()))
                .toList();
    }

    private String shown(CaseForm form, String column) {
        String value = in(form, column);
        return value.isEmpty() ? text("case.notKnown") : value;
    }

    /** The versions of a case, newest first. */
    List<Step> steps(List<CaseChange> history, Function<CaseChange, CaseForm> form) {
        List<Step> steps = new ArrayList<>();
        for (int index = 0; index < history.size(); index++) {
            CaseChange version = history.get(index);
            CaseChange before = index == 0 ? null : history.get(index - 1);
            steps.add(
                    0,
                    new Step(
                            what(version, before),
                            at(version.at()),
                            version.by().label(),
                            before == null || version.stored().withdrawn() != null
                                    ? List.of()
                                    : changes(form.apply(before), form.apply(version))));
        }
        return steps;
    }

    private String what(CaseChange version, @Nullable CaseChange before) {
        String withdrawn = version.stored().withdrawn();
        if (withdrawn != null) {
            return text("case.history.withdrawn", reason(withdrawn));
        }
        if (before == null) {
            return text("case.history.first");
        }
        return text(before.stored().withdrawn() == null ? "case.history.changed" : "case.history.reinstated");
    }

    /** Why a case was withdrawn. */
    static String reason(String code) {
        return Stream.of(Withdrawal.values())
                .filter(each -> each.code().equals(code))
                .map(Code::label)
                .findFirst()
                .orElse(code);
    }

    /** When something was accepted, to the minute. */
    String at(Instant at) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                        .withLocale(LocaleContextHolder.getLocale())
                        .withZone(ZoneOffset.UTC)
                        .format(at)
                + " UTC";
    }
}
