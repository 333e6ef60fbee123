package entrapment.registry.reports.question;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import entrapment.registry.reports.question.Note.Subject;
import entrapment.registry.stats.NoteCode;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What people read in the place of codes. */
class NoteTests {

    private static Note.Wording said(String template) {
        return Note.Wording.of("said", template);
    }

    private static Subject level(Factor factor, String code) {
        return Subject.of(factor, Level.of(factor, code));
    }

    static Stream<Arguments> notes() {
        return Stream.of(
                arguments(
                        Note.about(Subject.field("deviceClass"), CommonNote.FEWER_THAN_TWO_LEVELS),
                        "deviceClass: fewer than two levels in use, so there is nothing to compare.",
                        "Device: fewer than two levels in use, so there is nothing to compare."),
                arguments(
                        Note.about(level(Factor.DEVICE_CLASS, "rotational-burr"), said("left out.")),
                        "deviceClass rotational-burr: left out.",
                        "Device rotational atherectomy burr: left out."),
                arguments(
                        Note.about(level(Factor.TOTAL_OCCLUSION, "yes"), said("the ratio may differ.")),
                        "totalOcclusion yes: the ratio may differ.",
                        "Chronic total occlusion: the ratio may differ."),
                arguments(
                        Note.about(level(Factor.CALCIFICATION, "severe"), said("a stratum was left out.")),
                        "calcification severe: a stratum was left out.",
                        "Calcification severe: a stratum was left out."),
                arguments(
                        Note.about(
                                new Subject("perforation-iii", "Perforation type III"),
                                said("unknown in %s of %s cases."),
                                1,
                                3),
                        "perforation-iii: unknown in 1 of 3 cases.",
                        "Perforation type III: unknown in 1 of 3 cases."),
                arguments(
                        Note.of(
                                Subject.named("trend"),
                                new entrapment.registry.stats.Note(NoteCode.OUT_OF_REACH, "Scores are few.")),
                        "trend: Scores are few. (OUT_OF_REACH)",
                        "Trend: Scores are few."),
                arguments(
                        Note.about(Subject.named("2029-Q1"), CommonNote.CONTRADICTION, 5, 4),
                        "2029-Q1: left out, because 5 in 4 contradict each other.",
                        "2029-Q1: left out, because 5 in 4 contradict each other."),
                arguments(
                        Note.of(said("A case and its return may differ: read with care.")),
                        "A case and its return may differ: read with care.",
                        "A case and its return may differ: read with care."));
    }

    @ParameterizedTest
    @MethodSource("notes")
    void readsANoteWithoutCodes(Note note, String forPrograms, String forPeople) {
        assertThat(note.forPrograms()).isEqualTo(forPrograms);
        assertThat(note.forPeople()).isEqualTo(forPeople);
    }
}
