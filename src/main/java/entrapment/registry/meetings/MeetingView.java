package entrapment.registry.meetings;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Column;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.reports.Reports;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A meeting with everything, for another program.
 *
 * @param cut as it was frozen; null while it is not
 * @param textsChanged whether review, actions or follow-ups read otherwise now than in the frozen slides
 * @param dataCut what the figures are counted as of
 * @param chosen how the cases were chosen, in words
 * @param previous what its periods are held against
 * @param followUps open actions of earlier meetings, overdue ones first
 * @param changes since it was frozen before; null for the first time, or while it is not frozen
 * @param answers the agenda once more, with what is drawn; for pages
 */
public record MeetingView(
        Summary meeting,
        CaseChoice cases,
        long seed,
        @Nullable FrozenMeeting cut,
        boolean textsChanged,
        DataCut dataCut,
        String chosen,
        Previous previous,
        List<Content.FollowUp> followUps,
        List<AgendaItem> agenda,
        List<PresentedCase> presentations,
        List<Action> actions,
        @Nullable Changes changes,
        String framework,
        List<String> cautions,
        @JsonIgnore List<Answer> answers) {

    /**
     * What a list shows of a meeting.
     *
     * @param centre null for the network
     * @param frozen whether its figures are fixed
     */
    public record Summary(
            String id,
            @Nullable String centre,
            MeetingKind kind,
            PeriodRange span,
            boolean frozen,
            int version,
            Instant createdAt) {

        static Summary of(StoredMeeting meeting) {
            return new Summary(
                    meeting.id(),
                    meeting.centre(),
                    meeting.plan().kind(),
                    meeting.plan().span(),
                    meeting.frozenNumber() != null,
                    meeting.version(),
                    meeting.createdAt());
        }

        /** The entity tag of this version, as HTTP writes it. */
        public String etag() {
            return "\"" + version + "\"";
        }
    }

    /** What its periods are held against: those of the meeting before, or as many right before. */
    public record Previous(PeriodRange span, boolean ofMeeting) {}

    /** One question with its figures. */
    public record AgendaItem(
            String name,
            String question,
            String sentence,
            List<Shown> exhibits,
            List<String> notes,
            String method,
            String citation) {

        static AgendaItem of(Answer answer) {
            return new AgendaItem(
                    answer.name(),
                    answer.question(),
                    answer.sentence(),
                    answer.exhibits().stream().map(Shown::of).toList(),
                    answer.notes(),
                    answer.basis().method(),
                    answer.basis().citation());
        }
    }

    /**
     * One table.
     *
     * @param columns with the unit in which people read them; cells are proportions where that is per 1,000 or %
     */
    public record Shown(String title, String sentence, List<String> columns, List<List<@Nullable Object>> rows) {

        static Shown of(Exhibit exhibit) {
            return new Shown(
                    exhibit.title(),
                    exhibit.sentence(),
                    exhibit.columns().stream().map(Column::heading).toList(),
                    exhibit.rows());
        }
    }

    /** What freezing, unfreezing or refreezing answers: how the meeting stands, and what changed since it was frozen before. */
    public record FreezeAnswer(
            Summary meeting,
            @Nullable FrozenMeeting cut,
            @Nullable Changes changes) {}

    /** The review of a case as it stands. */
    public record ReviewView(String caseKey, int version, Review review, PreventabilityRatings preventability) {

        static ReviewView of(Definition.CaseTexts texts) {
            return new ReviewView(texts.caseKey(), texts.reviewVersion(), texts.review(), texts.preventability());
        }

        /** The entity tag of this version, as HTTP writes it. */
        public String etag() {
            return "\"" + version + "\"";
        }
    }

    static MeetingView of(StoredMeeting meeting, @Nullable FrozenMeeting cut, boolean textsChanged, Content content) {
        Definition definition = content.definition();
        return new MeetingView(
                Summary.of(meeting),
                definition.plan().cases(),
                meeting.seed(),
                cut,
                textsChanged,
                content.dataCut(),
                content.chosen(),
                new Previous(definition.previous(), definition.ofMeeting()),
                content.followUps(),
                content.answers().stream().map(AgendaItem::of).toList(),
                content.cases(),
                definition.actions(),
                definition.changes(),
                FactorType.PATIENT.source(),
                Reports.CAUTIONS,
                content.answers());
    }

    @JsonIgnore
    public String etag() {
        return meeting.etag();
    }
}
