package entrapment.registry.reports.harm;

import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Table;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.harm.HarmReport.Cost;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.reports.question.ReportHeading;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.MissingOutcomeBoundsAnalysis;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Levels;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The report of harm as it is shown. */
public final class HarmAnswer {

    private static final String AXIS = "Share of cases, %";

    private HarmAnswer() {}

    /**
     * One outcome of one group.
     *
     * @param kind degree of harm, complication or emergency
     * @param unknown in how many cases it is not known
     * @param bounds null where it is known of all
     */
    public record Outcome(
            Levels levels,
            String group,
            String kind,
            String code,
            String label,
            ProportionEstimate share,
            long unknown,
            @Nullable MissingOutcomeBoundsAnalysis bounds) {

        /** An outcome that is known of every case. */
        public static Outcome of(Levels levels, String group, String kind, Code code, ProportionEstimate share) {
            return new Outcome(levels, group, kind, code.code(), code.label(), share, 0, null);
        }

        private String sentence(Confidence confidence) {
            return "%s %s: %s%s."
                    .formatted(
                            kind,
                            code,
                            Words.share(share, confidence),
                            bounds == null
                                    ? ""
                                    : "; unknown in " + NumberText.count(unknown) + " more" + HarmReport.words(bounds));
        }
    }

    private static List<Outcome> harm(Cost cost) {
        return outcomes(cost, "harm", cost.harm());
    }

    private static List<Outcome> complications(Cost cost) {
        return outcomes(cost, "complication", cost.complications());
    }

    private static List<Outcome> outcomes(Cost cost, String kind, Map<? extends Code, ProportionEstimate> shares) {
        return shares.entrySet().stream()
                .map(share -> Outcome.of(
                        cost.level(), cost.level().label("All cases"), kind, share.getKey(), share.getValue()))
                .toList();
    }

    private static List<Outcome> emergencies(Cost cost) {
        List<Outcome> outcomes = new ArrayList<>();
        cost.emergencies()
                .forEach((emergency, share) -> outcomes.add(new Outcome(
                        cost.level(),
                        cost.level().label("All cases"),
                        "emergency",
                        emergency.code(),
                        emergency.label(),
                        share,
                        cost.unknown().getOrDefault(emergency, 0L),
                        cost.bounds().get(emergency))));
        return outcomes;
    }

    /** The columns of outcomes for people. */
    private static Columns<Outcome> shown(ReportHeading heading, List<Outcome> outcomes) {
        Columns<Outcome> columns = new Columns<>();
        if (isSplit(outcomes)) {
            columns.shown("Group", TEXT, Outcome::group);
        }
        return columns.shown("Outcome", TEXT, Outcome::label).share("Cases", heading.confidence(), Outcome::share);
    }

    private static boolean isSplit(List<Outcome> outcomes) {
        return outcomes.stream().map(Outcome::group).distinct().count() > 1;
    }

    /** One row for each outcome of a group, as a row for each group would be ninety cells wide. */
    static Table table(HarmReport report) {
        Confidence confidence = report.heading().confidence();
        return new Columns<Outcome>()
                .levels(report.heading().by(), Outcome::levels)
                .csv("outcome", Outcome::kind)
                .csv("code", Outcome::code)
                .csv("events", outcome -> outcome.share().events())
                .csv("of", outcome -> outcome.share().of())
                .csv("estimate", outcome -> outcome.share().estimate())
                .csv("lower", outcome -> outcome.share().lower())
                .csv("upper", outcome -> outcome.share().upper())
                .csv("unknown", Outcome::unknown)
                .perThousand("perThousand", outcome -> outcome.share().estimate())
                .perThousand("perThousandLower", outcome -> outcome.share().lower())
                .perThousand("perThousandUpper", outcome -> outcome.share().upper())
                .csv("sentence", outcome -> outcome.sentence(confidence))
                .csv("lowestPossible", bound(MissingOutcomeBoundsAnalysis::lowestPossible))
                .csv("highestPossible", bound(MissingOutcomeBoundsAnalysis::highestPossible))
                .csv("envelopeLower", bound(bounds -> bounds.envelope().lower()))
                .csv("envelopeUpper", bound(bounds -> bounds.envelope().upper()))
                .table(
                        report.heading(),
                        report.notes(),
                        report.groups().stream()
                                .flatMap(cost -> Stream.of(harm(cost), complications(cost), emergencies(cost))
                                        .flatMap(List::stream))
                                .toList());
    }

    private static Function<Outcome, @Nullable Object> bound(
            Function<MissingOutcomeBoundsAnalysis, @Nullable Double> of) {
        return outcome -> {
            MissingOutcomeBoundsAnalysis bounds = outcome.bounds();
            return bounds == null ? null : of.apply(bounds);
        };
    }

    static Answer of(HarmReport report) {
        ReportHeading heading = report.heading();
        List<Cost> groups = report.groups();
        return heading.answer(
                groups.size() == 1
                        ? groups.get(0).sentence()
                        : groups.isEmpty()
                                ? "No case is recorded here."
                                : "For each of " + groups.size() + " groups, below.",
                List.of(
                        shares(heading, "Degree of harm", "", outcomes(groups, HarmAnswer::harm)),
                        intervals(heading, "Complications", outcomes(groups, HarmAnswer::complications)),
                        intervals(heading, "Emergencies", outcomes(groups, HarmAnswer::emergencies))),
                report.notes());
    }

    private static List<Outcome> outcomes(List<Cost> groups, Function<Cost, List<Outcome>> of) {
        return groups.stream().flatMap(cost -> of.apply(cost).stream()).toList();
    }

    /** Outcomes of which each case has one: a bar for each group. */
    public static Exhibit shares(ReportHeading heading, String title, String sentence, List<Outcome> outcomes) {
        return shown(heading, outcomes)
                .exhibit(
                        title,
                        sentence,
                        new Figure(
                                Figure.Kind.SHARES,
                                Unit.PERCENT,
                                AXIS,
                                "",
                                outcomes.stream()
                                        .map(outcome ->
                                                Columns.item(outcome.group(), outcome.label(), outcome.share(), ""))
                                        .toList(),
                                List.of(),
                                List.of()),
                        outcomes);
    }

    /** Outcomes of which a case may have several: a line for each. */
    private static Exhibit intervals(ReportHeading heading, String title, List<Outcome> outcomes) {
        boolean split = isSplit(outcomes);
        return shown(heading, outcomes)
                .exhibit(
                        title,
                        "",
                        Figure.intervals(
                                Unit.PERCENT,
                                AXIS,
                                outcomes.stream()
                                        .map(outcome -> Columns.item(
                                                outcome.label(), split ? outcome.group() : "", outcome.share(), ""))
                                        .toList()),
                        outcomes);
    }
}
