package entrapment.registry.meetings;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.slides.Deck;
import entrapment.registry.exports.slides.Slide;
import entrapment.registry.reports.Reports;
import entrapment.registry.vocabulary.Filters;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class MeetingDeckTests {

    private static final Instant MADE = Instant.parse("2031-04-05T09:30:00Z");

    private static Content content(List<Action> followUps, List<Action> actions) {
        Answer.Basis basis = new Answer.Basis("m", "c", 812, MADE, Filters.NONE, 0.95);
        return new Content(
                "hill-lab",
                new DataCut(812, MADE),
                new Definition(
                        new MeetingPlan(
                                MeetingKind.MORBIDITY_MORTALITY, PeriodRange.of("2031-Q1", "2031-Q1"), CaseChoice.NONE),
                        PeriodRange.of("2030-Q4", "2030-Q4"),
                        false,
                        followUps,
                        0,
                        List.of(),
                        actions,
                        null),
                CaseChoice.NONE.sentence(0, 0, 1),
                followUps.stream()
                        .map(action -> new Content.FollowUp(action, null))
                        .toList(),
                List.of(Comparison.of(
                        new Comparison.Line("now", 0, 0),
                        List.of(new Comparison.Line("then", 0, 0)),
                        List.of(),
                        basis)),
                List.of());
    }

    private static Action action(int number, boolean overdue) {
        return new Action(
                "mtg-AAAAAAAAAAAA",
                number,
                new Action.Plan(
                        "Action " + number,
                        OwnerRole.DATA_LEAD,
                        LocalDate.of(2031, 6, 30),
                        new Measure(
                                Measure.Reported.COMPLETENESS,
                                null,
                                Map.of(),
                                PeriodRange.of("2031-Q1", "2031-Q1"),
                                PeriodRange.of("2031-Q2", "2031-Q2")),
                        ActionStatus.OPEN),
                1,
                MADE,
                MADE,
                overdue);
    }

    @Test
    void showsAMeetingWithoutAnythingAndKeepsTheCautions() {
        Deck deck = MeetingDeck.of(content(List.of(), List.of()), MADE, true);

        assertThat(deck.title()).isEqualTo("Morbidity and mortality meeting of hill-lab, 2031-Q1");
        assertThat(deck.made()).isEqualTo(MADE);
        assertThat(deck.dark()).isTrue();
        assertThat(deck.slides())
                .extracting(Slide::title)
                .containsExactly(
                        "Morbidity and mortality meeting of hill-lab, 2031-Q1",
                        "Actions of earlier meetings",
                        "Is it more than before, or than elsewhere?",
                        "Cases",
                        "Actions of this meeting",
                        "Read these figures with care");
        assertThat(deck.slides()).allSatisfy(slide -> {
            assertThat(slide.notes()).containsAll(Reports.CAUTIONS);
            assertThat(slide.dataCut()).isEqualTo("data cut: revision 812, 2031-04-05");
        });
        assertThat(deck.slides().get(5).lines()).isEqualTo(Reports.CAUTIONS);
    }

    @Test
    void leadsWithWhatIsOverdueAndGivesLongListsSeveralSlides() {
        List<Action> many = IntStream.rangeClosed(1, 14)
                .mapToObj(number -> action(number, number == 1))
                .toList();

        List<Slide> slides =
                MeetingDeck.of(content(many, List.of()), MADE, false).slides();

        assertThat(slides.subList(1, 4))
                .extracting(Slide::title)
                .containsExactly(
                        "Actions of earlier meetings (1 of 3)",
                        "Actions of earlier meetings (2 of 3)",
                        "Actions of earlier meetings (3 of 3)");
        assertThat(slides.get(1).sentence()).isEqualTo("14 to follow up, 1 overdue.");
        assertThat(slides.get(1).lines().get(0)).startsWith("Overdue: Action 1 (Data lead, due 2031-06-30, open;");
        assertThat(slides.get(1).lines()).hasSize(6);
        assertThat(slides.get(3).lines()).hasSize(2);
    }

    @Test
    void isTheSameForTheSameContent() {
        Content content = content(List.of(action(1, true)), List.of(action(2, false)));

        assertThat(MeetingDeck.of(content, MADE, false)).isEqualTo(MeetingDeck.of(content, MADE, false));
    }
}
