package entrapment.registry.cases.web;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.DataQuery;
import entrapment.registry.intake.FieldError;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** What pages say of the fields of a case and of their values. */
@Component
class CaseTexts {

    private final MessageSource messages;

    CaseTexts(MessageSource messages) {
        this.messages = messages;
    }

    /** One field in words. */
    record Line(String label, String value) {}

    String text(String key, Object... arguments) {
        return messages.getMessage(key, arguments, LocaleContextHolder.getLocale());
    }

    private String textOr(String key, String otherwise) {
        String text = messages.getMessage(key, null, null, LocaleContextHolder.getLocale());
        return text == null ? otherwise : text;
    }

    /** What a column is called on a page. */
    String label(CaseColumn<?> column) {
        String field = column.field().label();
        return column.attempt() == 0 ? field : text("case.ofAttempt", column.attempt(), field);
    }

    /** A line of help beside a field; empty where its name is enough. */
    String help(Field field) {
        return textOr("case.help." + field.code(), "");
    }

    /** What is wrong with a field, and what to do about it. */
    String error(FieldError error) {
        return textOr("case.error." + error.code(), error.detail());
    }

    /** A question to the sender. */
    Line query(DataQuery query) {
        return new Line(
                CaseColumns.at(query.pointer()).map(this::label).orElse(""),
                textOr("case.query." + query.rule(), query.detail()));
    }

    /** The value of a field; empty where it is not known. */
    String value(@Nullable Object value) {
        if (value instanceof Set<?> codes) {
            return codes.stream().map(this::value).collect(joining(", "));
        }
        if (value instanceof Code code) {
            return code.known() ? code.label() : "";
        }
        if (value instanceof BigDecimal size) {
            return text("case.mm", size.toPlainString());
        }
        if (value instanceof Long minutes) {
            return text("case.minutes", minutes.toString());
        }
        return value == null ? "" : value.toString();
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
