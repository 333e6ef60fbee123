package entrapment.registry.cases.web;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.cases.EntrapmentCase.Attempt;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A case as people read it.
 *
 * @param sentence the case in a sentence or two
 * @param parts all that is known of it, the attempts aside
 * @param tried the attempts in the order tried
 */
record CaseAsRead(String sentence, List<Part> parts, List<Tried> tried) {

    /** What most cases do not have, so that its absence is not worth a word. */
    private static final Set<Field> SELDOM =
            Set.of(Field.DEVICE_IDENTIFIER, Field.PROCEDURE_KEY, Field.COMPLICATIONS, Field.MI_DEFINITION);

    /** One part of a case: what is known of it, and the names of what is not. */
    record Part(String title, List<CaseTexts.Line> lines, List<String> unknown) {}

    record Tried(String technique, String result, @Nullable String minutes, String enablers) {}

    static CaseAsRead of(KeyedCase keyed, CaseTexts texts) {
        return new CaseAsRead(
                sentence(keyed.content(), texts),
                Stream.of(Section.values())
                        .map(section -> part(section, keyed, texts))
                        .toList(),
                keyed.content().attempts().stream()
                        .map(attempt -> tried(attempt, texts))
                        .toList());
    }

    static String sentence(EntrapmentCase entrapment, CaseTexts texts) {
        String size = texts.value(entrapment.device().deviceSizeMm());
        String where = Stream.of(
                        entrapment.lesion().vessel(), entrapment.lesion().position())
                .map(texts::value)
                .filter(value -> !value.isEmpty())
                .collect(joining(", "));
        List<Attempt> attempts = entrapment.attempts();
        Attempt last = attempts.get(attempts.size() - 1);
        return texts.text(
                "case.sentence",
                entrapment.device().deviceClass().label() + (size.isEmpty() ? "" : ", " + size),
                where.isEmpty() ? texts.text("case.somewhere") : where,
                attempts.size(),
                last.technique().label(),
                last.result().label(),
                entrapment.outcome().release().label(),
                entrapment.outcome().harm().label());
    }

    private static Part part(Section section, KeyedCase keyed, CaseTexts texts) {
        List<CaseTexts.Line> lines = new ArrayList<>();
        List<String> unknown = new ArrayList<>();
        for (Field field : section.fields()) {
            String value = texts.value(CaseColumns.of(field, 0).value(keyed));
            if (!value.isEmpty()) {
                lines.add(new CaseTexts.Line(field.label(), value));
            } else if (!SELDOM.contains(field)) {
                unknown.add(field.label());
            }
        }
        return new Part(texts.text("case.section." + section.code()), lines, unknown);
    }

    private static Tried tried(Attempt attempt, CaseTexts texts) {
        Long minutes = attempt.minutesFromEntrapment();
        return new Tried(
                attempt.technique().label(),
                attempt.result().label(),
                minutes == null ? null : minutes.toString(),
                texts.value(attempt.enablers()));
    }
}
