package entrapment.registry.reports.betweencentres;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Report;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.FunnelOverdispersionAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.OneWaySuppression;
import entrapment.registry.stats.ShrinkageAnalysis;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Are we different, beyond chance? A funnel of the centres about the registry's rate with flags from exact tails, observed
 * over expected at the registry's rates for each centre's own mix, and rates that allow for chance. Never a ranking: centres
 * stand in the order of their names. For a centre's own analyst the small counts of others are hidden.
 *
 * @param target the rate the funnel is drawn about
 * @param overdispersion only with ten centres that each expect five events; null otherwise
 */
public record BetweenCentresReport(
        @JsonUnwrapped ReportHeading heading,
        List<GroupBy> adjustFor,
        @Nullable Double target,
        List<CentrePoint> groups,
        @Nullable Overdispersion overdispersion,
        Counting.Excluded excluded,
        List<Note> notes)
        implements Report {

    /** Whether centres vary more than chance allows; adjusting for it may hide differences that are real. */
    record Overdispersion(
            @Nullable Double phi,
            @Nullable Boolean overdispersed,
            @Nullable Double tau2) {}

    /** Fewer cannot tell how centres spread (statistics, section 14). */
    private static final int FEWEST_CENTRES = 5;

    private static final long FEWEST_EVENTS = 10;
    private static final int CENTRES_FOR_OVERDISPERSION = 10;
    private static final double EXPECTED_FOR_OVERDISPERSION = 5;
    private static final double WINSOR = 0.1;

    private static final Note.Wording NO_RATE_ALLOWING_FOR_CHANCE = Note.Wording.of(
            "no-rate-allowing-for-chance", "No rate allowing for chance: that needs five centres and ten events.");
    private static final Note.Wording HIDDEN = Note.Wording.of(
            "hidden",
            "Of %s other centres the counts are hidden: each is 1 to %s entrapments, or protects such a count.");
    private static final Note.Wording STILL_TELLS =
            Note.Wording.of("still-tells", "With so few other centres the rate of all still tells what is hidden.");
    private static final Note.Wording STRATA_LEFT_OUT = Note.Wording.of(
            "strata-left-out", "%s strata of a centre were left out, because their entrapments outnumber their uses.");
    private static final Note.Wording NO_OVERDISPERSION = Note.Wording.of(
            "no-overdispersion",
            "Overdispersion is not looked at: that needs ten centres that each expect five events.");
    private static final Note.Wording OVERDISPERSION = Note.Wording.of(
            "overdispersion",
            "Adjusting for overdispersion may hide differences that are real; the flags here are not adjusted.");

    /**
     * @param smallestCount k: for an analyst, counts of 1 to k-1 of other centres are hidden
     */
    static BetweenCentresReport of(BetweenCentresQuery query, DataCut cut, Counting counting, int smallestCount) {
        Confidence confidence = query.scope().confidence();
        Viewer viewer = query.scope().viewer();
        List<Note> notes = new ArrayList<>();
        CentreCounts counts = CentreCounts.of(counting);
        if (counts.contradictory() > 0) {
            notes.add(Note.of(STRATA_LEFT_OUT, counts.contradictory()));
        }
        UnaryOperator<String> names = GroupBy.pseudonyms(counts.centres(), viewer);
        List<String> centres =
                counts.centres().stream().sorted(Comparator.comparing(names)).toList();
        List<Group> groups = centres.stream()
                .map(centre -> new Group(names.apply(centre), counts.total(centre)))
                .toList();
        List<CentrePoint> points = new ArrayList<>();
        Double target = null;
        Overdispersion overdispersion = null;
        if (groups.isEmpty()) {
            notes.add(Note.of(CommonNote.NOTHING_MATCHES));
        } else {
            FunnelAnalysis funnel = FunnelAnalysis.of(groups);
            boolean enough = groups.size() >= FEWEST_CENTRES
                    && groups.stream()
                                    .mapToLong(group -> group.proportion().events())
                                    .sum()
                            >= FEWEST_EVENTS;
            ShrinkageAnalysis shrinkage = enough ? ShrinkageAnalysis.of(groups, confidence) : null;
            target = funnel.target();
            for (int index = 0; index < groups.size(); index++) {
                points.add(CentrePoint.of(
                        groups.get(index),
                        funnel.centres().get(index),
                        counts.standardised(centres.get(index), confidence),
                        shrinkage == null || shrinkage.centres().isEmpty()
                                ? null
                                : shrinkage.centres().get(index),
                        target,
                        confidence));
            }
            funnel.notes().forEach(note -> notes.add(Note.of(null, note)));
            if (shrinkage == null) {
                notes.add(Note.of(NO_RATE_ALLOWING_FOR_CHANCE));
            } else {
                shrinkage.notes().forEach(note -> notes.add(Note.of(null, note)));
            }
            overdispersion = overdispersion(groups, funnel, notes);
            hideSmall(points, centres, viewer, smallestCount, notes);
        }
        notes.addAll(CommonNote.exclusions(counting));
        return new BetweenCentresReport(
                ReportHeading.of(
                        "between-centres",
                        "Are we different, beyond chance?",
                        cut,
                        query.scope(),
                        List.of(GroupBy.CENTRE.code()),
                        Calculation.FUNNEL.method()),
                query.adjustFor(),
                target,
                List.copyOf(points),
                overdispersion,
                counting.excluded(),
                List.copyOf(notes));
    }

    /** Hides the small counts of other centres; the registry's rate tells what all of them add up to. */
    private static void hideSmall(
            List<CentrePoint> points, List<String> centres, Viewer viewer, int smallestCount, List<Note> notes) {
        if (viewer.isSteward()) {
            return;
        }
        List<Integer> others = IntStream.range(0, points.size())
                .filter(index -> !centres.get(index).equals(viewer.centre()))
                .boxed()
                .toList();
        OneWaySuppression suppression = OneWaySuppression.of(
                others.stream()
                        .map(index -> Objects.requireNonNull(points.get(index).events()))
                        .toList(),
                smallestCount);
        List<Integer> hidden = Stream.concat(suppression.primary().stream(), suppression.complementary().stream())
                .map(others::get)
                .toList();
        hidden.forEach(index -> points.set(index, points.get(index).hidden()));
        if (!hidden.isEmpty()) {
            notes.add(Note.of(HIDDEN, hidden.size(), smallestCount - 1));
            if (!suppression.safe()) {
                notes.add(Note.of(STILL_TELLS));
            }
        }
    }

    private static @Nullable Overdispersion overdispersion(
            List<Group> groups, FunnelAnalysis funnel, List<Note> notes) {
        boolean large = groups.size() >= CENTRES_FOR_OVERDISPERSION
                && funnel.centres().stream().allMatch(centre -> {
                    Double expected = centre.expected();
                    return expected != null && expected >= EXPECTED_FOR_OVERDISPERSION;
                });
        if (!large) {
            notes.add(Note.of(NO_OVERDISPERSION));
            return null;
        }
        FunnelOverdispersionAnalysis analysis = FunnelOverdispersionAnalysis.of(groups, WINSOR);
        notes.add(Note.of(OVERDISPERSION));
        return new Overdispersion(analysis.phi(), analysis.overdispersed(), analysis.tau2());
    }

    @Override
    public Answer answer() {
        return BetweenCentresAnswer.of(this);
    }

    @Override
    public Table table() {
        return BetweenCentresAnswer.columns(this).table(heading, notes, groups);
    }
}
