package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.Answer;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.FunnelOverdispersionAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.IndirectStandardisationAnalysis;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ShrinkageAnalysis;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Are we different, beyond chance? A funnel of the centres about the registry's rate with flags from exact tails, observed
 * over expected at the registry's rates for each centre's own mix, and rates that allow for chance. Never a ranking: centres
 * stand in the order of their names. For a centre's own analyst the small counts of others are hidden.
 *
 * @param target the rate the funnel is drawn about
 * @param overdispersion only with ten centres that each expect five events; null otherwise
 */
@JsonPropertyOrder({"heading", "adjustFor", "target", "groups", "overdispersion", "excluded", "notes", "cautions"})
public record BetweenCentresReport(
        @JsonUnwrapped ReportHeading heading,
        List<String> adjustFor,
        @Nullable Double target,
        List<Point> groups,
        @Nullable Overdispersion overdispersion,
        Counting.Excluded excluded,
        List<String> notes,
        List<String> cautions)
        implements Report {

    /**
     * One centre.
     *
     * @param events null, as all that would give it away, where it is another centre's small count or protects one
     * @param limits the funnel's lines at the centre's size, for drawing
     * @param flag from the exact tail, the only flag to act on
     * @param expected events at the registry's rates for the centre's mix of the factors in {@code adjustFor}
     * @param observedOverExpected with its exact interval; not comparable between centres whose mixes differ
     * @param shrunken the best estimate allowing for chance, with its interval; null where centres do not differ beyond it
     */
    record Point(
            Map<String, String> level,
            @Nullable Long events,
            long uses,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            FunnelAnalysis.Limits limits,
            @Nullable String flag,
            boolean tooSmallToFlagLow,
            boolean perhapsNotReporting,
            @Nullable Double expected,
            Ratio observedOverExpected,
            Ratio shrunken,
            boolean suppressed,
            String sentence) {

        Point hidden() {
            return new Point(
                    level,
                    null,
                    uses,
                    null,
                    null,
                    null,
                    limits,
                    null,
                    tooSmallToFlagLow,
                    false,
                    expected,
                    NO_RATIO,
                    NO_RATIO,
                    true,
                    level.get("centre") + ": hidden, as its count of entrapments is small or protects a small one.");
        }
    }

    private static final Ratio NO_RATIO = new Ratio(null, null, null);

    /** An estimate with its limits. */
    record Ratio(
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper) {}

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

    /**
     * @param smallestCount k: for an analyst, counts of 1 to k-1 of other centres are hidden
     */
    static BetweenCentresReport of(
            BetweenCentresQuery query, DataCut cut, Counting counting, Viewer viewer, int smallestCount) {
        Confidence confidence = query.scope().confidence();
        List<String> notes = new ArrayList<>();
        Map<String, Map<List<String>, Proportion>> byCentre = byCentre(counting, notes);
        UnaryOperator<String> names = GroupBy.pseudonyms(byCentre.keySet(), viewer);
        List<String> centres =
                byCentre.keySet().stream().sorted(Comparator.comparing(names)).toList();
        List<Group> groups = centres.stream()
                .map(centre -> new Group(names.apply(centre), sum(byCentre.getOrDefault(centre, Map.of()))))
                .toList();
        List<Point> points = new ArrayList<>();
        Double target = null;
        Overdispersion overdispersion = null;
        if (groups.isEmpty()) {
            notes.add("Nothing in the registry matches these filters.");
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
                points.add(point(
                        groups.get(index),
                        funnel.centres().get(index),
                        standardised(byCentre, centres.get(index), confidence),
                        shrinkage == null || shrinkage.centres().isEmpty()
                                ? null
                                : shrinkage.centres().get(index),
                        target,
                        confidence));
            }
            funnel.notes().forEach(note -> notes.add(note.withCode()));
            if (shrinkage == null) {
                notes.add("No rate allowing for chance: that needs five centres and ten events.");
            } else {
                shrinkage.notes().forEach(note -> notes.add(note.withCode()));
            }
            overdispersion = overdispersion(groups, funnel, notes);
            hideSmall(points, centres, viewer, smallestCount, notes);
        }
        notes.addAll(Words.exclusions(counting));
        return new BetweenCentresReport(
                new ReportHeading(
                        "between-centres",
                        "Are we different, beyond chance?",
                        cut,
                        query.scope().filters(),
                        List.of("centre"),
                        confidence.level(),
                        Calculation.FUNNEL.method()),
                query.adjustFor().stream().map(GroupBy::code).toList(),
                target,
                List.copyOf(points),
                overdispersion,
                counting.excluded(),
                List.copyOf(notes),
                ReportHeading.CAUTIONS);
    }

    /**
     * Hides the small counts of other centres. The registry's rate tells what all of them add up to, so what is hidden must be
     * two counts or more that together reach k: then each could be anything from none to k, as far as the sum tells.
     */
    private static void hideSmall(
            List<Point> points, List<String> centres, Viewer viewer, int smallestCount, List<String> notes) {
        if (viewer.isSteward()) {
            return;
        }
        List<Integer> others = IntStream.range(0, points.size())
                .filter(index -> !centres.get(index).equals(viewer.centre()))
                .boxed()
                .sorted(Comparator.comparingLong((Integer index) -> hidingCost(points.get(index), smallestCount)))
                .toList();
        List<Integer> hidden = new ArrayList<>();
        long sum = 0;
        for (int index : others) {
            long events = events(points.get(index));
            boolean small = events >= 1 && events < smallestCount;
            boolean protects = !hidden.isEmpty() && (hidden.size() < 2 || sum < smallestCount);
            if (small || protects) {
                hidden.add(index);
                sum += events;
            }
        }
        hidden.forEach(index -> points.set(index, points.get(index).hidden()));
        if (!hidden.isEmpty()) {
            notes.add(
                    "Of %d other centres the counts are hidden: each is 1 to %d entrapments, or protects such a count."
                            .formatted(hidden.size(), smallestCount - 1));
            if (hidden.size() < 2 || sum < smallestCount) {
                notes.add("With so few other centres the rate of all still tells what is hidden.");
            }
        }
    }

    /** Small counts first, then the smallest that can protect them, and counts of none last. */
    private static long hidingCost(Point point, int smallestCount) {
        long events = events(point);
        if (events == 0) {
            return Long.MAX_VALUE;
        }
        return events < smallestCount ? 0 : events;
    }

    private static long events(Point point) {
        return Objects.requireNonNull(point.events());
    }

    /** Events of uses by centre, then by stratum of the factors adjusted for. */
    private static Map<String, Map<List<String>, Proportion>> byCentre(Counting counting, List<String> notes) {
        Map<String, Map<List<String>, Proportion>> byCentre = new TreeMap<>();
        long contradictory = 0;
        for (Counting.Group group : counting.groups()) {
            if (group.events() > group.uses()) {
                contradictory++;
                continue;
            }
            List<String> stratum = group.levels().subList(1, group.levels().size());
            byCentre.computeIfAbsent(group.levels().get(0), centre -> new LinkedHashMap<>())
                    .put(stratum, new Proportion(group.events(), group.uses()));
        }
        if (contradictory > 0) {
            notes.add(contradictory
                    + " strata of a centre were left out, because their entrapments outnumber their uses.");
        }
        return byCentre;
    }

    /** Observed against expected at the network's rate of each stratum, the centre's own data included in it. */
    private static IndirectStandardisationAnalysis standardised(
            Map<String, Map<List<String>, Proportion>> byCentre, String centre, Confidence confidence) {
        Map<List<String>, Proportion> own = byCentre.getOrDefault(centre, Map.of());
        List<Proportion> network = new ArrayList<>();
        List<Proportion> observed = new ArrayList<>();
        own.forEach((stratum, proportion) -> {
            Map<List<String>, Proportion> all = new LinkedHashMap<>();
            byCentre.forEach((name, strata) -> {
                Proportion there = strata.get(stratum);
                if (there != null) {
                    all.put(List.of(name), there);
                }
            });
            network.add(sum(all));
            observed.add(proportion);
        });
        return IndirectStandardisationAnalysis.of(network, observed, confidence);
    }

    private static Proportion sum(Map<List<String>, Proportion> strata) {
        return new Proportion(
                strata.values().stream().mapToLong(Proportion::events).sum(),
                strata.values().stream().mapToLong(Proportion::of).sum());
    }

    private static Point point(
            Group group,
            FunnelAnalysis.Centre place,
            IndirectStandardisationAnalysis standardised,
            ShrinkageAnalysis.@Nullable Centre shrunken,
            @Nullable Double target,
            Confidence confidence) {
        Proportion own = group.proportion();
        Interval interval = own.interval(IntervalMethod.WILSON, confidence);
        return new Point(
                Map.of("centre", group.name()),
                own.events(),
                own.of(),
                own.estimate(),
                interval.lower(),
                interval.upper(),
                place.limits(),
                place.flag().toString(),
                place.tooSmallToFlagLow(),
                place.perhapsNotReporting(),
                standardised.expected(),
                new Ratio(
                        standardised.oOverE(),
                        standardised.exact().lower(),
                        standardised.exact().upper()),
                shrunken == null ? NO_RATIO : new Ratio(shrunken.shrunken(), shrunken.lower(), shrunken.upper()),
                false,
                sentence(group, place, standardised, shrunken, target, confidence));
    }

    private static String sentence(
            Group group,
            FunnelAnalysis.Centre place,
            IndirectStandardisationAnalysis standardised,
            ShrinkageAnalysis.@Nullable Centre shrunken,
            @Nullable Double target,
            Confidence confidence) {
        Double estimate = group.proportion().estimate();
        if (estimate == null || target == null) {
            return group.name() + ": no use was reported.";
        }
        StringBuilder sentence = new StringBuilder("%s: %s in %s (%s per 1,000), %s for the registry's %s per 1,000."
                .formatted(
                        group.name(),
                        Words.entrapments(group.proportion().events()),
                        Words.uses(group.proportion().of()),
                        NumberText.perThousand(estimate),
                        where(place.flag()),
                        NumberText.perThousand(target)));
        Double ratio = standardised.oOverE();
        Double expected = standardised.expected();
        Double lower = standardised.exact().lower();
        Double upper = standardised.exact().upper();
        if (ratio != null && expected != null && lower != null && upper != null) {
            sentence.append(" For its own mix %s were expected: %s times as many as that (%s %% CI %s to %s)."
                    .formatted(
                            NumberText.oneDecimal(expected),
                            NumberText.ratio(ratio),
                            NumberText.level(confidence.level()),
                            NumberText.ratio(lower),
                            NumberText.ratio(upper)));
        }
        Double shrunkenRate = shrunken == null ? null : shrunken.shrunken();
        Double shrunkenLower = shrunken == null ? null : shrunken.lower();
        Double shrunkenUpper = shrunken == null ? null : shrunken.upper();
        if (shrunkenRate != null && shrunkenLower != null && shrunkenUpper != null) {
            sentence.append(" Best estimate allowing for chance: %s per 1,000 (%s to %s)."
                    .formatted(
                            NumberText.perThousand(shrunkenRate),
                            NumberText.perThousand(shrunkenLower),
                            NumberText.perThousand(shrunkenUpper)));
        }
        if (place.flag() == FunnelAnalysis.Position.ABOVE_998 || place.flag() == FunnelAnalysis.Position.BELOW_998) {
            sentence.append(" Check data and case mix before anything else.");
        }
        if (place.perhapsNotReporting()) {
            sentence.append(
                    " No case in so many uses is unlikely at the registry's rate: is the centre reporting its cases?");
        }
        return sentence.toString();
    }

    private static String where(FunnelAnalysis.Position flag) {
        return switch (flag) {
            case ABOVE_998 -> "above the 99.8 % limit";
            case ABOVE_95 -> "above the 95 % limit";
            case BELOW_95 -> "below the 95 % limit";
            case BELOW_998 -> "below the 99.8 % limit";
            default -> "within the limits";
        };
    }

    private static @Nullable Overdispersion overdispersion(
            List<Group> groups, FunnelAnalysis funnel, List<String> notes) {
        boolean large = groups.size() >= CENTRES_FOR_OVERDISPERSION
                && funnel.centres().stream().allMatch(centre -> {
                    Double expected = centre.expected();
                    return expected != null && expected >= EXPECTED_FOR_OVERDISPERSION;
                });
        if (!large) {
            notes.add("Overdispersion is not looked at: that needs ten centres that each expect five events.");
            return null;
        }
        FunnelOverdispersionAnalysis analysis = FunnelOverdispersionAnalysis.of(groups, WINSOR);
        notes.add("Adjusting for overdispersion may hide differences that are real; the flags here are not adjusted.");
        return new Overdispersion(analysis.phi(), analysis.overdispersed(), analysis.tau2());
    }

    @Override
    public Answer answer() {
        return BetweenCentresAnswer.of(this);
    }

    @Override
    public Table table() {
        List<String> columns = List.of(
                "centre",
                "events",
                "uses",
                "estimate",
                "lower",
                "upper",
                "limit95Lower",
                "limit95Upper",
                "limit998Lower",
                "limit998Upper",
                "flag",
                "expected",
                "observedOverExpected",
                "observedOverExpectedLower",
                "observedOverExpectedUpper",
                "shrunken",
                "shrunkenLower",
                "shrunkenUpper",
                "perThousand",
                "suppressed",
                "sentence");
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Point point : groups) {
            List<@Nullable Object> row = new ArrayList<>();
            row.add(point.level().get("centre"));
            row.add(point.events());
            row.add(point.uses());
            row.add(point.estimate());
            row.add(point.lower());
            row.add(point.upper());
            row.add(point.limits().at95().lower());
            row.add(point.limits().at95().upper());
            row.add(point.limits().at998().lower());
            row.add(point.limits().at998().upper());
            row.add(point.flag());
            row.add(point.expected());
            row.add(point.observedOverExpected().estimate());
            row.add(point.observedOverExpected().lower());
            row.add(point.observedOverExpected().upper());
            row.add(point.shrunken().estimate());
            row.add(point.shrunken().lower());
            row.add(point.shrunken().upper());
            row.add(Words.thousandfold(point.estimate()));
            row.add(point.suppressed());
            row.add(point.sentence());
            rows.add(row);
        }
        return new Table(heading.comments(notes), columns, rows);
    }
}
