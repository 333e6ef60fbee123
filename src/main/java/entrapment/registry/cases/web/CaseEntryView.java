package entrapment.registry.cases.web;

import entrapment.registry.access.Centres;
import entrapment.registry.cases.CaseChange;
import entrapment.registry.cases.KeyedCase;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.TreeMap;
import org.springframework.stereotype.Component;
import org.springframework.ui.Model;

/** What the pages of a case entry show; each method fills the model and answers the name of the page. */
@Component
class CaseEntryView {

    private static final String FORM = "cases/entry";
    private static final int YEARS = 5;

    private final Centres centres;
    private final CaseTexts texts;
    private final Settings settings;
    private final Clock clock;

    CaseEntryView(Centres centres, CaseTexts texts, Settings settings, Clock clock) {
        this.centres = centres;
        this.texts = texts;
        this.settings = settings;
        this.clock = clock;
    }

    /**
     * The form.
     *
     * @param focus the input to begin with; empty for none
     */
    String form(CaseEntry entry, List<FieldError> errors, String focus, Model model) {
        model.addAttribute("form", view(entry, errors, focus));
        common(entry, model);
        if (entry.viewer().isSteward()) {
            model.addAttribute("centres", centres.list(entry.viewer()));
        }
        model.addAttribute("centreMissing", errors.stream().anyMatch(error -> error.pointer()
                .equals("/centre")));
        return FORM;
    }

    /** What is wrong with the fields alone, for the script of the form. */
    String checks(CaseEntry entry, List<FieldError> errors, Model model) {
        model.addAttribute("form", view(entry, errors, ""));
        return FORM + " :: checks";
    }

    /** Somebody else changed the case: what they changed is shown, and what was typed is kept. */
    String overtaken(CaseEntry entry, List<CaseChange> history, Model model) {
        CaseChange newest = history.get(history.size() - 1);
        model.addAttribute("changedBy", newest.by().label());
        model.addAttribute("changedAt", texts.at(newest.at()));
        model.addAttribute(
                "changesOfOthers",
                history.stream()
                        .map(CaseChange::stored)
                        .filter(began -> began.etag().equals(entry.version()))
                        .findFirst()
                        .map(began -> CaseStep.differences(
                                began.keyed(), newest.stored().keyed(), texts))
                        .orElse(List.of()));
        return form(entry.from(newest.stored()), List.of(), "", model);
    }

    /** The case as it would be stored, to be confirmed. */
    String summary(CaseEntry entry, KeyedCase keyed, Model model) {
        StoredCase stored = entry.stored();
        common(entry, model);
        model.addAttribute("caseKey", keyed.caseKey());
        model.addAttribute("read", CaseAsRead.of(keyed, texts));
        model.addAttribute("queries", keyed.queries().stream().map(texts::query).toList());
        model.addAttribute("changes", stored == null ? null : CaseStep.differences(stored.keyed(), keyed, texts));
        model.addAttribute("attempts", entry.form().attempts());
        model.addAttribute("carried", new TreeMap<>(entry.form().values()));
        return "cases/summary";
    }

    private void common(CaseEntry entry, Model model) {
        StoredCase stored = entry.stored();
        model.addAttribute("path", entry.path());
        model.addAttribute("centre", entry.centre());
        model.addAttribute("version", entry.version());
        model.addAttribute("edited", stored == null ? null : stored.caseKey());
    }

    private FormView view(CaseEntry entry, List<FieldError> errors, String focus) {
        return FormView.of(
                entry.form(),
                CaseForm.byColumn(errors),
                new FormView.Setting(
                        periods().stream().map(Period::toString).toList(),
                        settings.deviceIdentifier(),
                        entry.stored() != null,
                        focus),
                texts);
    }

    /** The current period and those before it, newest first. */
    List<Period> periods() {
        return Period.endingAt(
                LocalDate.now(clock), YEARS * settings.periodResolution().perYear() + 1, settings.periodResolution());
    }
}
