package entrapment.registry.meetings;

import static java.util.stream.Collectors.joining;

import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.similarcases.SimilarCasesReport;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Mechanism;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/**
 * A case as a meeting looks at it: coded fields alone, so there is nothing in it that names anybody.
 *
 * @param number its place in the meeting, from 1
 * @param caseKey the centre's own opaque key; not on any slide
 * @param alike what the registry knows of cases like it
 * @param review what the meeting says of it
 * @param reviewVersion 0 where there is none yet
 */
public record PresentedCase(
        int number,
        String caseKey,
        EntrapmentCase content,
        Alike alike,
        Review review,
        int reviewVersion,
        PreventabilityRatings preventability) {

    /**
     * Cases like this one: of its device class and, if known, its mechanism.
     *
     * @param cases how many the figures are about, this one included
     * @param firstTry freed by the first attempt, of all
     * @param anyTry freed by any attempt, of all
     */
    public record Alike(
            DeviceClass deviceClass,
            @Nullable Mechanism mechanism,
            long cases,
            ProportionEstimate firstTry,
            ProportionEstimate anyTry,
            String sentence,
            List<String> notes) {

        static Alike of(DeviceClass deviceClass, @Nullable Mechanism mechanism, SimilarCasesReport similar) {
            // Each case has one first attempt, and is freed by one attempt at most, so techniques add up to cases.
            long cases = sum(similar, tried -> tried.first().of());
            Proportion first =
                    new Proportion(sum(similar, tried -> tried.first().events()), cases);
            Proportion any = new Proportion(sum(similar, tried -> tried.any().events()), cases);
            String kind = deviceClass.label() + (mechanism == null ? "" : ", " + mechanism.label());
            return new Alike(
                    deviceClass,
                    mechanism,
                    cases,
                    Effect.wilson(first),
                    Effect.wilson(any),
                    cases == 0
                            ? "The registry can tell nothing of cases like this one (%s).".formatted(kind)
                            : "Of %s like this one (%s), the first attempt freed the device in %s, any attempt in %s."
                                    .formatted(
                                            cases == 1 ? "1 case" : NumberText.count(cases) + " cases",
                                            kind,
                                            words(first),
                                            words(any)),
                    similar.notes().stream().map(Note::forPrograms).toList());
        }

        private static long sum(SimilarCasesReport similar, ToLongFunction<SimilarCasesReport.Tried> of) {
            return similar.groups().stream().mapToLong(of).sum();
        }

        private static String words(Proportion proportion) {
            ProportionEstimate share = Effect.wilson(proportion);
            Double estimate = share.estimate();
            Double lower = share.lower();
            Double upper = share.upper();
            return estimate == null || lower == null || upper == null
                    ? NumberText.count(share.events())
                    : "%s (%s %%, 95 %% CI %s to %s)"
                            .formatted(
                                    NumberText.count(share.events()),
                                    NumberText.percent(estimate),
                                    NumberText.percent(lower),
                                    NumberText.percent(upper));
        }
    }

    /** Device and size. */
    public String device() {
        return content.device().deviceClass().label()
                + (content.device().deviceSizeMm() == null
                        ? ""
                        : " " + content.device().deviceSizeMm().toPlainString() + " mm");
    }

    /** Where it stuck, without what is not known. */
    public String lesion() {
        EntrapmentCase.Lesion lesion = content.lesion();
        return new Facts()
                .known(Field.VESSEL, lesion.vessel())
                .known(Field.POSITION, lesion.position())
                .known(Field.CALCIFICATION, lesion.calcification())
                .known(Field.TORTUOSITY, lesion.tortuosity())
                .known(Field.ANGULATION, lesion.angulation())
                .known(Field.TOTAL_OCCLUSION, lesion.totalOcclusion())
                .known(Field.STENT_LAYERS, lesion.stentLayers())
                .words();
    }

    /** How it stuck, and how the patient was. */
    public String state() {
        EntrapmentCase.Event event = content.event();
        return new Facts()
                .known(Field.MECHANISM, event.mechanism())
                .known(Field.PHASE, event.phase())
                .known(Field.HAEMODYNAMICS, event.haemodynamics())
                .known(Field.SHOCK_STAGE, event.shockStage())
                .known(Field.TIMI_FLOW, event.timiFlow())
                .known(Field.FRACTURED, event.fractured())
                .words();
    }

    /** How it ended. */
    public String outcome() {
        EntrapmentCase.Outcome outcome = content.outcome();
        return new Facts()
                .known(Field.RELEASE, outcome.release())
                .known(Field.FRAGMENT, outcome.fragment())
                .known(Field.DISSECTION, outcome.dissection())
                .known(Field.PERFORATION, outcome.perforation())
                .known(Field.FINAL_TIMI_FLOW, outcome.finalTimiFlow())
                .known(Field.HARM, outcome.harm())
                .known(Field.PROCEDURE_END, outcome.procedureEnd())
                .known(Field.COMPLICATIONS, outcome.complications())
                .words();
    }

    /** What is known, the label of the field and that of its value. */
    private static final class Facts {

        private final List<String> known = new ArrayList<>();

        Facts known(Field field, Code code) {
            return known(field, code.known() ? List.of(code) : List.of());
        }

        Facts known(Field field, Collection<? extends Code> codes) {
            if (!codes.isEmpty()) {
                known.add(field.label() + ": " + codes.stream().map(Code::label).collect(joining(", ")));
            }
            return this;
        }

        String words() {
            return known.isEmpty() ? "nothing known" : String.join("; ", known);
        }
    }
}
