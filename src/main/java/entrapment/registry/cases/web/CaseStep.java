package entrapment.registry.cases.web;

import entrapment.registry.cases.CaseChange;
import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A version of a case: what was done, when, by whom, and what it changed. */
record CaseStep(String what, String at, String by, List<Difference> changes) {

    /** A field that differs between two versions. */
    record Difference(String label, String before, String after) {}

    static List<CaseStep> of(List<CaseChange> history, CaseTexts texts) {
        List<CaseStep> steps = new ArrayList<>();
        CaseChange before = null;
        for (CaseChange version : history) {
            steps.add(0, step(version, before, texts));
            before = version;
        }
        return steps;
    }

    private static CaseStep step(CaseChange version, @Nullable CaseChange before, CaseTexts texts) {
        return new CaseStep(
                what(version, before, texts),
                texts.at(version.at()),
                version.by().label(),
                before == null || version.stored().withdrawn() != null
                        ? List.of()
                        : differences(before.stored().keyed(), version.stored().keyed(), texts));
    }

    private static String what(CaseChange version, @Nullable CaseChange before, CaseTexts texts) {
        Withdrawal withdrawn = version.stored().withdrawn();
        if (withdrawn != null) {
            return texts.text("case.history.withdrawn", withdrawn.label());
        }
        if (before == null) {
            return texts.text("case.history.first");
        }
        return texts.text(before.stored().withdrawn() == null ? "case.history.changed" : "case.history.reinstated");
    }

    /** What differs between two versions, field by field. */
    static List<Difference> differences(KeyedCase before, KeyedCase after, CaseTexts texts) {
        return CaseColumns.columns().stream()
                .filter(column -> column.field() != Field.CASE_KEY)
                .map(column ->
                        new Difference(texts.label(column), shown(column, before, texts), shown(column, after, texts)))
                .filter(change -> !change.before().equals(change.after()))
                .toList();
    }

    private static String shown(CaseColumn<KeyedCase> column, KeyedCase keyed, CaseTexts texts) {
        String value = texts.value(column.value(keyed));
        return value.isEmpty() ? texts.text("case.notKnown") : value;
    }
}
