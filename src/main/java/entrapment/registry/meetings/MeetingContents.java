package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.vocabulary.Period;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Brings together what a meeting shows: its cases and texts, and the figures as of a cut. */
@Component
class MeetingContents {

    private final MeetingRows rows;
    private final ReviewRows reviews;
    private final ActionRows actions;
    private final MeetingFigures figures;
    private final MeetingCases cases;
    private final MeetingRights rights;
    private final Revisions revisions;
    private final Clock clock;

    MeetingContents(
            MeetingRows rows,
            ReviewRows reviews,
            ActionRows actions,
            MeetingFigures figures,
            MeetingCases cases,
            MeetingRights rights,
            Revisions revisions,
            Clock clock) {
        this.rows = rows;
        this.reviews = reviews;
        this.actions = actions;
        this.figures = figures;
        this.cases = cases;
        this.rights = rights;
        this.revisions = revisions;
        this.clock = clock;
    }

    /** The meeting as it was frozen; null while it is not. */
    @Nullable
    FrozenMeeting frozen(StoredMeeting meeting) {
        Integer number = meeting.frozenNumber();
        return number == null ? null : rows.frozen(meeting.id(), number);
    }

    /** The keys of the cases that a meeting looks at. */
    List<String> caseKeys(StoredMeeting meeting, Viewer viewer) {
        FrozenMeeting frozen = frozen(meeting);
        return frozen == null
                ? choose(scope(meeting, revisions.cut(null), viewer), meeting).keys()
                : frozen.definition().keys();
    }

    /** What a meeting that is not frozen shows besides figures: cases as of a cut, texts as they stand. */
    Definition live(StoredMeeting meeting, DataCut cut, Viewer viewer) {
        rights.open(viewer);
        Scope scope = scope(meeting, cut, viewer);
        MeetingCases.Chosen chosen = choose(scope, meeting);
        rights.open(viewer);
        return definition(
                meeting, meeting.plan(), scope.previous(), scope.ofMeeting(), chosen.fitting(), chosen.keys(), null);
    }

    private MeetingCases.Chosen choose(Scope scope, StoredMeeting meeting) {
        return cases.choose(scope, meeting.plan().cases(), meeting.seed());
    }

    private Scope scope(StoredMeeting meeting, DataCut cut, Viewer viewer) {
        PeriodRange periods = meeting.plan().span();
        Optional<PeriodRange> previous = rows.previous(meeting.centre(), periods, meeting.createdAt())
                .map(before -> before.plan().span());
        return new Scope(
                meeting.centre(),
                periods,
                previous.orElseGet(periods::before),
                previous.isPresent(),
                cut,
                Scope.asker(meeting.centre(), viewer));
    }

    private static Scope scope(StoredMeeting meeting, Definition definition, DataCut cut, Viewer viewer) {
        return new Scope(
                meeting.centre(),
                definition.plan().span(),
                definition.previous(),
                definition.ofMeeting(),
                cut,
                Scope.asker(meeting.centre(), viewer));
    }

    /** The same with every text as it stands. */
    Definition withTextsAsTheyStand(StoredMeeting meeting, Definition definition) {
        return definition(
                meeting,
                definition.plan(),
                definition.previous(),
                definition.ofMeeting(),
                definition.fitting(),
                definition.keys(),
                definition.changes());
    }

    private Definition definition(
            StoredMeeting meeting,
            MeetingPlan plan,
            PeriodRange previous,
            boolean ofMeeting,
            int fitting,
            List<String> caseKeys,
            @Nullable Changes changes) {
        LocalDate today = LocalDate.now(clock);
        return new Definition(
                plan,
                previous,
                ofMeeting,
                actions.followUps(meeting, firstDay(meeting.plan().span()), today).stream()
                        .sorted(Comparator.comparing(action -> !action.overdue()))
                        .toList(),
                fitting,
                caseKeys.stream().map(key -> reviews.texts(meeting.id(), key)).toList(),
                actions.list(meeting.id(), today),
                changes);
    }

    private static LocalDate firstDay(PeriodRange periods) {
        Period first = periods.from();
        return LocalDate.of(first.year(), first.quarter() == 0 ? 1 : first.quarter() * 3 - 2, 1);
    }

    /**
     * All that a meeting shows.
     *
     * @param day on which it is looked at: actions that are due by then show their effect
     */
    Content content(StoredMeeting meeting, Definition definition, DataCut cut, LocalDate day, Viewer viewer) {
        Scope scope = scope(meeting, definition, cut, viewer);
        return new Content(
                meeting.centre(),
                cut,
                definition,
                definition
                        .plan()
                        .cases()
                        .sentence(definition.fitting(), definition.cases().size(), meeting.seed()),
                definition.followUps().stream()
                        .map(action -> new Content.FollowUp(
                                action,
                                day.isBefore(action.plan().dueOn()) ? null : effect(meeting, action, cut, day, viewer)))
                        .toList(),
                figures.answers(scope),
                presented(scope, definition));
    }

    Effect effect(StoredMeeting meeting, Action action, DataCut cut, LocalDate day, Viewer viewer) {
        return figures.effect(
                meeting.centre(),
                action.plan().measure(),
                !day.isBefore(action.plan().dueOn()),
                cut,
                Scope.asker(meeting.centre(), viewer));
    }

    private List<PresentedCase> presented(Scope scope, Definition definition) {
        Map<String, EntrapmentCase> contents = cases.contents(scope, definition.keys());
        Map<List<Object>, PresentedCase.Alike> alike = new HashMap<>();
        List<PresentedCase> presented = new ArrayList<>();
        for (Definition.CaseTexts texts : definition.cases()) {
            EntrapmentCase content = contents.get(texts.caseKey());
            if (content != null) {
                presented.add(new PresentedCase(
                        presented.size() + 1,
                        texts.caseKey(),
                        content,
                        alike.computeIfAbsent(
                                List.of(
                                        content.device().deviceClass(),
                                        content.event().mechanism()),
                                kind -> cases.alike(scope, content)),
                        texts.review(),
                        texts.reviewVersion(),
                        texts.preventability()));
            }
        }
        return List.copyOf(presented);
    }

    /** What changed of a frozen meeting since, as of another cut. */
    Changes changes(StoredMeeting meeting, FrozenMeeting frozen, DataCut newest, Viewer viewer) {
        Scope then = scope(meeting, frozen.definition(), frozen.dataCut(), viewer);
        Scope now = scope(meeting, frozen.definition(), newest, viewer);
        return Changes.of(
                frozen.dataCut(), newest, cases.reasons(then, now), figures.answers(then), figures.answers(now));
    }
}
