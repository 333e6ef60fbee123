package entrapment.registry.reports;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.RATIO;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Labels;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The report between centres for people. */
final class BetweenCentresAnswer {

    /** At so many sizes are the funnel's lines drawn, more of them where they bend. */
    private static final int SIZES = 48;

    private BetweenCentresAnswer() {}

    static Answer of(BetweenCentresReport report) {
        ReportHeading heading = report.heading();
        List<BetweenCentresReport.Point> points = report.groups();
        Exhibit funnel = ExhibitBuilder.of(
                        points,
                        List.of(centre()),
                        ExhibitBuilder.column("Entrapments", COUNT, BetweenCentresAnswer::events),
                        ExhibitBuilder.column("Uses", COUNT, BetweenCentresReport.Point::uses),
                        ExhibitBuilder.column("Rate", PER_THOUSAND, BetweenCentresReport.Point::estimate),
                        ExhibitBuilder.interval(
                                heading,
                                PER_THOUSAND,
                                BetweenCentresReport.Point::lower,
                                BetweenCentresReport.Point::upper),
                        ExhibitBuilder.column("Place in the funnel", TEXT, BetweenCentresReport.Point::flag))
                .exhibit("Each centre by its uses", "", funnel(report));
        Exhibit shrunken = ExhibitBuilder.of(
                        points,
                        List.of(centre()),
                        ExhibitBuilder.onPage("Expected for its mix", NUMBER, BetweenCentresReport.Point::expected),
                        ExhibitBuilder.column("Observed over expected", RATIO, point -> point.observedOverExpected()
                                .estimate()),
                        ExhibitBuilder.interval(
                                heading,
                                RATIO,
                                point -> point.observedOverExpected().lower(),
                                point -> point.observedOverExpected().upper()),
                        ExhibitBuilder.column("Best estimate", PER_THOUSAND, point -> point.shrunken()
                                .estimate()),
                        ExhibitBuilder.interval(
                                heading, PER_THOUSAND, point -> point.shrunken().lower(), point -> point.shrunken()
                                        .upper()))
                .exhibit(
                        "Allowing for chance: each centre's rate drawn towards the registry's",
                        "",
                        new Figure(
                                Figure.Kind.INTERVALS,
                                Unit.PER_THOUSAND,
                                "Best estimate per 1,000 uses",
                                "",
                                points.stream()
                                        .map(point -> item(
                                                point,
                                                point.shrunken().estimate(),
                                                point.shrunken().lower(),
                                                point.shrunken().upper()))
                                        .toList(),
                                target(report),
                                List.of()));
        return heading.answer(sentence(report), List.of(funnel, shrunken), report.notes());
    }

    private static ExhibitBuilder.Part<BetweenCentresReport.Point> centre() {
        return ExhibitBuilder.column("Centre", TEXT, point -> Labels.group(point.level(), "All"));
    }

    /** A hidden count says so; it is not missing. */
    private static @Nullable Object events(BetweenCentresReport.Point point) {
        return point.suppressed() ? NumberText.SUPPRESSED : point.events();
    }

    private static String sentence(BetweenCentresReport report) {
        Double target = report.target();
        List<BetweenCentresReport.Point> seen = report.groups().stream()
                .filter(point ->
                        point.flag() != null && !point.flag().equals(FunnelAnalysis.Position.NO_DATA.toString()))
                .toList();
        if (target == null || seen.isEmpty()) {
            return "There is nothing to compare here.";
        }
        String rate = NumberText.perThousand(target);
        List<String> outside = seen.stream()
                .filter(point -> !FunnelAnalysis.Position.WITHIN.toString().equals(point.flag()))
                .map(point -> Labels.group(point.level(), "") + " (" + point.flag() + ")")
                .toList();
        long hidden = report.groups().stream()
                .filter(BetweenCentresReport.Point::suppressed)
                .count();
        return (outside.isEmpty()
                        ? "Each of %d centres lies where chance alone may put it about the registry's %s per 1,000"
                                .formatted(seen.size(), rate)
                        : "Of %d centres, %d outside what chance would often do about the registry's %s per 1,000: %s"
                                .formatted(seen.size(), outside.size(), rate, String.join("; ", outside)))
                + (hidden == 0 ? "." : "; " + hidden + " hidden, as their counts are small or protect a small one.");
    }

    private static Figure funnel(BetweenCentresReport report) {
        List<Figure.Line> lines = new ArrayList<>(target(report));
        Double target = report.target();
        if (target != null && target > 0 && target < 1) {
            lines.addAll(limits(
                    target,
                    report.groups().stream()
                            .mapToLong(BetweenCentresReport.Point::uses)
                            .max()
                            .orElse(0)));
        }
        return new Figure(
                Figure.Kind.FUNNEL,
                Unit.PER_THOUSAND,
                "Entrapments per 1,000 uses",
                "Uses",
                report.groups().stream()
                        .map(point -> item(point, point.estimate(), point.lower(), point.upper()))
                        .toList(),
                lines,
                List.of());
    }

    private static List<Figure.Line> target(BetweenCentresReport report) {
        Double target = report.target();
        return target == null
                ? List.of()
                : List.of(Figure.Line.at("registry " + NumberText.perThousand(target), target));
    }

    private static Figure.Item item(
            BetweenCentresReport.Point point,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper) {
        String flag = point.flag();
        return new Figure.Item(
                Labels.group(point.level(), "All"),
                "",
                point.events(),
                point.uses(),
                estimate,
                lower,
                upper,
                flag != null && flag.startsWith("above")
                        ? Figure.Mark.HIGH
                        : flag != null && flag.startsWith("below") ? Figure.Mark.LOW : Figure.Mark.NONE,
                point.sentence());
    }

    /** The kernel's own lines, at sizes from few uses to a little beyond the largest centre. */
    private static List<Figure.Line> limits(double target, long largest) {
        TreeSet<Long> sizes = new TreeSet<>();
        double most = largest * 1.05;
        for (int step = 1; step <= SIZES; step++) {
            sizes.add(Math.max(1, Math.round(most * step * step / ((double) SIZES * SIZES))));
        }
        List<Group> centres = sizes.stream()
                .map(size -> new Group(Long.toString(size), new Proportion(0, size)))
                .toList();
        List<FunnelAnalysis.Centre> places = FunnelAnalysis.of(centres, target).centres();
        List<Long> at = List.copyOf(sizes);
        return List.of(
                line("95 %", places, at, limits -> limits.at95().upper()),
                line("95 %", places, at, limits -> limits.at95().lower()),
                line("99.8 %", places, at, limits -> limits.at998().upper()),
                line("99.8 %", places, at, limits -> limits.at998().lower()));
    }

    private static Figure.Line line(
            String label,
            List<FunnelAnalysis.Centre> places,
            List<Long> sizes,
            Function<FunnelAnalysis.Limits, @Nullable Double> limit) {
        List<Figure.Point> points = new ArrayList<>();
        for (int index = 0; index < places.size(); index++) {
            Double y = limit.apply(places.get(index).limits());
            if (y != null) {
                points.add(new Figure.Point(sizes.get(index), y));
            }
        }
        return new Figure.Line(label, points.stream().collect(Collectors.toUnmodifiableList()));
    }
}
