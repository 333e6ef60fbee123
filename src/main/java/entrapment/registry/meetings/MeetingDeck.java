package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.exports.slides.Slide;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Filters;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The slides of a meeting, in the order of its agenda. The same content makes the same slides. */
final class MeetingDeck {

    /** What can be read on one slide. */
    private static final int MOST_LINES = 6;

    private final List<Slide> slides = new ArrayList<>();
    private final String dataCut;

    private MeetingDeck(DataCut cut) {
        this.dataCut = new Answer.Basis("", "", cut.revision(), cut.at(), Filters.NONE, 0).dataCut();
    }

    /** @param made what the file says of when it was made: the moment of freezing */
    static Deck of(Content content, Instant made, boolean dark) {
        Definition definition = content.definition();
        String whose = content.centre() == null ? "the network" : content.centre();
        String title = "%s meeting of %s, %s"
                .formatted(
                        definition.plan().kind().label(),
                        whose,
                        definition.plan().span().words());
        MeetingDeck deck = new MeetingDeck(content.dataCut());
        deck.text(title, "", opening(content));
        deck.followUps(content.followUps());
        Changes changes = definition.changes();
        if (changes != null) {
            deck.changes(changes);
        }
        content.answers().forEach(deck::answer);
        deck.cases(content);
        deck.actions(definition.actions());
        deck.text("Read these figures with care", "", Reports.CAUTIONS);
        return new Deck(title, made, dark, deck.slides);
    }

    private static List<String> opening(Content content) {
        Definition definition = content.definition();
        return List.of(
                "Periods: " + definition.plan().span().words(),
                "Held against: " + (definition.ofMeeting() ? "the previous meeting, " : "the periods before, ")
                        + definition.previous().words(),
                "Cases: " + content.chosen(),
                "No name of a patient, a member of staff or another centre is in these slides; keep it so when speaking.");
    }

    private void followUps(List<Content.FollowUp> followUps) {
        List<String> lines =
                followUps.stream().map(followUp -> followUp.action().line()).toList();
        long overdue =
                followUps.stream().filter(each -> each.action().overdue()).count();
        pages(
                "Actions of earlier meetings",
                followUps.isEmpty() ? "None is open." : "%d to follow up, %d overdue.".formatted(lines.size(), overdue),
                lines);
        for (Content.FollowUp followUp : followUps) {
            Effect effect = followUp.effect();
            if (effect != null) {
                effect(followUp.action(), effect);
            }
        }
    }

    private void effect(Action action, Effect effect) {
        Column.Kind kind =
                switch (effect.measure().report().unit) {
                    case PER_THOUSAND -> Column.Kind.PER_THOUSAND;
                    default -> Column.Kind.PERCENT;
                };
        exhibit(
                "Did it help? " + action.plan().what(),
                effect.sentence(),
                new Exhibit(
                        effect.measure().words(),
                        "",
                        null,
                        List.of(
                                Column.of("", Column.Kind.TEXT),
                                Column.of("Counted", Column.Kind.COUNT),
                                Column.of("Of", Column.Kind.COUNT),
                                Column.of("Rate", kind),
                                Column.of("95 % CI", kind)),
                        List.of(
                                row("Before, " + effect.measure().before().words(), effect.before()),
                                row("After, " + effect.measure().after().words(), effect.after()))),
                effect.notes(),
                effect.method().name() + " (" + effect.method().citation() + ")");
    }

    private static List<@Nullable Object> row(String label, ProportionEstimate share) {
        return Arrays.asList(
                label,
                share.events(),
                share.of(),
                share.estimate(),
                new entrapment.registry.exports.Limits(share.lower(), share.upper()));
    }

    private void changes(Changes changes) {
        List<List<@Nullable Object>> rows = new ArrayList<>();
        changes.figures()
                .forEach(each -> rows.add(Arrays.asList(
                        each.exhibit() + (each.row().isEmpty() ? "" : ": " + each.row()),
                        each.column(),
                        each.before(),
                        each.after())));
        if (rows.isEmpty()) {
            text("What changed since the last cut", changes.sentence(), List.of());
            return;
        }
        exhibit(
                "What changed since the last cut",
                changes.sentence(),
                new Exhibit(
                        "Figures that read otherwise",
                        "",
                        null,
                        Stream.of("Figure", "Column", "Before", "Now")
                                .map(name -> Column.of(name, Column.Kind.TEXT))
                                .toList(),
                        rows),
                List.of(),
                "");
    }

    /** A slide for each exhibit; one without a row has words in its place. */
    private void answer(Answer answer) {
        for (Slide slide : Slide.of(answer)) {
            Exhibit exhibit = slide.exhibit();
            boolean empty = exhibit != null && exhibit.rows().isEmpty();
            slides.add(
                    empty
                            ? new Slide(
                                    slide.title(),
                                    slide.sentence().isEmpty() ? "Nothing to show." : slide.sentence(),
                                    null,
                                    answer.notes().stream().limit(MOST_LINES).toList(),
                                    slide.notes(),
                                    slide.method(),
                                    slide.dataCut())
                            : slide);
        }
    }

    private void cases(Content content) {
        List<PresentedCase> cases = content.cases();
        text("Cases", content.chosen(), List.of());
        for (PresentedCase each : cases) {
            String title = "Case %d of %d: %s".formatted(each.number(), cases.size(), each.device());
            exhibit(
                    title,
                    each.state(),
                    attempts(each.content().attempts()),
                    each.alike().notes(),
                    "");
            slides.add(new Slide(
                    title + ", outcome",
                    each.alike().sentence(),
                    null,
                    List.of("Lesion: " + each.lesion(), "Outcome: " + each.outcome()),
                    notes(each.alike().notes()),
                    IntervalMethod.WILSON.method().name() + " ("
                            + IntervalMethod.WILSON.method().citation() + ")",
                    dataCut));
            review(title + ", review", each);
        }
    }

    private static Exhibit attempts(List<EntrapmentCase.Attempt> attempts) {
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (EntrapmentCase.Attempt attempt : attempts) {
            rows.add(Arrays.asList(
                    (long) rows.size() + 1,
                    attempt.minutesFromEntrapment(),
                    attempt.technique().label(),
                    attempt.enablers().stream().map(each -> each.label()).collect(Collectors.joining(", ")),
                    attempt.result().label()));
        }
        return new Exhibit(
                "Attempts in the order tried",
                "",
                null,
                List.of(
                        Column.of("Attempt", Column.Kind.COUNT),
                        Column.of(Field.MINUTES_FROM_ENTRAPMENT.label(), Column.Kind.COUNT),
                        Column.of(Field.TECHNIQUE.label(), Column.Kind.TEXT),
                        Column.of(Field.ENABLERS.label(), Column.Kind.TEXT),
                        Column.of(Field.RESULT.label(), Column.Kind.TEXT)),
                rows);
    }

    private void review(String title, PresentedCase each) {
        Review review = each.review();
        PreventabilityRatings ratings = each.preventability();
        Map<String, Integer> spread = ratings.spread();
        List<String> lines = new ArrayList<>();
        review.wentWell().forEach(remark -> lines.add("Went well: " + remark.text()));
        for (FactorType type : FactorType.values()) {
            review.contributingFactors().stream()
                    .filter(factor -> factor.type() == type)
                    .forEach(factor -> lines.add(type.label() + ": " + factor.statement()));
        }
        review.learningPoints().forEach(remark -> lines.add("To learn: " + remark.text()));
        if (spread != null) {
            lines.add("Preventable? "
                    + Stream.of(Preventability.values())
                            .map(rating -> rating.label() + " " + spread.getOrDefault(rating.code(), 0))
                            .collect(Collectors.joining(", "))
                    + " (" + ratings.ratings() + " independent reviewers)");
        }
        if (!lines.isEmpty()) {
            pages(
                    title,
                    review.contributingFactors().isEmpty()
                            ? ""
                            : "Contributing factors after " + FactorType.PATIENT.source() + ".",
                    lines);
        }
    }

    private void actions(List<Action> actions) {
        pages(
                "Actions of this meeting",
                actions.isEmpty() ? "None agreed yet." : "",
                actions.stream().map(Action::line).toList());
    }

    /** As many slides as the lines need. */
    private void pages(String title, String sentence, List<String> lines) {
        int pages = Math.max(1, (lines.size() + MOST_LINES - 1) / MOST_LINES);
        for (int page = 0; page < pages; page++) {
            text(
                    pages == 1 ? title : "%s (%d of %d)".formatted(title, page + 1, pages),
                    sentence,
                    lines.subList(page * MOST_LINES, Math.min(lines.size(), (page + 1) * MOST_LINES)));
        }
    }

    private void text(String title, String sentence, List<String> lines) {
        slides.add(new Slide(title, sentence, null, lines, Reports.CAUTIONS, "", dataCut));
    }

    private void exhibit(String title, String sentence, Exhibit exhibit, List<String> notes, String method) {
        slides.add(new Slide(title, sentence, exhibit, List.of(), notes(notes), method, dataCut));
    }

    private static List<String> notes(List<String> notes) {
        return Stream.concat(notes.stream(), Reports.CAUTIONS.stream()).toList();
    }
}
