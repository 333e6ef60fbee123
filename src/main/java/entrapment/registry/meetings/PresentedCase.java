package entrapment.registry.meetings;

import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.Report;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Mechanism;
import java.util.ArrayList;
import java.util.List;
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
            Effect.Share firstTry,
            Effect.Share anyTry,
            String sentence,
            List<String> notes) {

        static Alike of(DeviceClass deviceClass, @Nullable Mechanism mechanism, Report similar) {
            Counts counts = Counts.of(similar);
            long cases = sum(counts, "released-first", "of");
            Proportion first = new Proportion(sum(counts, "released-first", "events"), cases);
            Proportion any = new Proportion(sum(counts, "released-any", "events"), cases);
            String kind = deviceClass.label() + (mechanism == null ? "" : ", " + mechanism.label());
            return new Alike(
                    deviceClass,
                    mechanism,
                    cases,
                    Effect.Share.of(first),
                    Effect.Share.of(any),
                    cases == 0
                            ? "The registry can tell nothing of cases like this one (%s).".formatted(kind)
                            : "Of %s like this one (%s), the first attempt freed the device in %s, any attempt in %s."
                                    .formatted(
                                            cases == 1 ? "1 case" : NumberText.count(cases) + " cases",
                                            kind,
                                            words(first),
                                            words(any)),
                    counts.notes());
        }

        /** Each case has one first attempt, and is freed by one attempt at most, so techniques add up to cases. */
        private static long sum(Counts counts, String counted, String column) {
            return counts.sum(
                    row -> row.text("part").equals("technique")
                            && row.text("counted").equals(counted),
                    column);
        }

        private static String words(Proportion proportion) {
            Effect.Share share = Effect.Share.of(proportion);
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
                .known("vessel", lesion.vessel())
                .known("position", lesion.position())
                .known("calcification", lesion.calcification())
                .known("tortuosity", lesion.tortuosity())
                .known("angulation", lesion.angulation())
                .known("total occlusion", lesion.totalOcclusion())
                .known("stent layers", lesion.stentLayers())
                .words();
    }

    /** How it stuck, and how the patient was. */
    public String state() {
        EntrapmentCase.Event event = content.event();
        return new Facts()
                .known("mechanism", event.mechanism())
                .known("phase", event.phase())
                .known("haemodynamics", event.haemodynamics())
                .known("SCAI stage", event.shockStage())
                .known("TIMI flow", event.timiFlow())
                .known("fractured", event.fractured())
                .words();
    }

    /** How it ended. */
    public String outcome() {
        EntrapmentCase.Outcome outcome = content.outcome();
        Facts facts = new Facts()
                .known("release", outcome.release())
                .known("fragment", outcome.fragment())
                .known("dissection", outcome.dissection())
                .known("perforation", outcome.perforation())
                .known("final TIMI flow", outcome.finalTimiFlow())
                .known("harm", outcome.harm())
                .known("procedure", outcome.procedureEnd());
        outcome.complications().forEach(each -> facts.known("complication", each));
        return facts.words();
    }

    /** What is known, a name and a label each. */
    private static final class Facts {

        private final List<String> known = new ArrayList<>();

        Facts known(String name, Code code) {
            if (!code.code().equals("unknown")) {
                known.add(name + ": " + code.label());
            }
            return this;
        }

        String words() {
            return known.isEmpty() ? "nothing known" : String.join("; ", known);
        }
    }
}
