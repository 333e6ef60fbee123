package entrapment.registry.reports.betweencentres;

import static entrapment.registry.exports.Column.Kind.COUNT;
import static entrapment.registry.exports.Column.Kind.NUMBER;
import static entrapment.registry.exports.Column.Kind.PER_THOUSAND;
import static entrapment.registry.exports.Column.Kind.RATIO;
import static entrapment.registry.exports.Column.Kind.TEXT;

import entrapment.registry.exports.Answer;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.exports.Unit;
import entrapment.registry.reports.question.Columns;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.FunnelAnalysis.Position;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.Proportion;
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

    static Columns<CentrePoint> columns(BetweenCentresReport report) {
        return Columns.of(
                new Columns<CentrePoint>().csv("centre", point -> point.level().codes()),
                funnelColumns(report),
                new Columns<CentrePoint>()
                        .csv("limit95Lower", point -> point.limits().at95().lower())
                        .csv("limit95Upper", point -> point.limits().at95().upper())
                        .csv("limit998Lower", point -> point.limits().at998().lower())
                        .csv("limit998Upper", point -> point.limits().at998().upper())
                        .csv(
                                "flag",
                                point -> point.flag() == null
                                        ? null
                                        : point.flag().toString()),
                mixColumns(report),
                new Columns<CentrePoint>()
                        .perThousand("perThousand", CentrePoint::estimate)
                        .csv("suppressed", CentrePoint::suppressed)
                        .csv("sentence", CentrePoint::sentence));
    }

    private static Columns<CentrePoint> centre() {
        return new Columns<CentrePoint>().shown("Centre", TEXT, BetweenCentresAnswer::label);
    }

    private static String label(CentrePoint point) {
        return point.level().label("All");
    }

    /** A hidden count says so; it is not missing. */
    private static Columns<CentrePoint> funnelColumns(BetweenCentresReport report) {
        return new Columns<CentrePoint>()
                .csv("events", CentrePoint::events)
                .shown("Entrapments", COUNT, point -> point.suppressed() ? NumberText.SUPPRESSED : point.events())
                .column("uses", "Uses", COUNT, CentrePoint::uses)
                .column("estimate", "Rate", PER_THOUSAND, CentrePoint::estimate)
                .interval(
                        "lower",
                        "upper",
                        report.heading().confidence(),
                        PER_THOUSAND,
                        CentrePoint::lower,
                        CentrePoint::upper)
                .shown("Place in the funnel", TEXT, point -> point.flag());
    }

    private static Columns<CentrePoint> mixColumns(BetweenCentresReport report) {
        Confidence confidence = report.heading().confidence();
        return new Columns<CentrePoint>()
                .onPage("expected", "Expected for its mix", NUMBER, CentrePoint::expected)
                .column("observedOverExpected", "Observed over expected", RATIO, point -> point.observedOverExpected()
                        .estimate())
                .interval(
                        "observedOverExpectedLower",
                        "observedOverExpectedUpper",
                        confidence,
                        RATIO,
                        point -> point.observedOverExpected().lower(),
                        point -> point.observedOverExpected().upper())
                .column("shrunken", "Best estimate", PER_THOUSAND, point -> point.shrunken()
                        .estimate())
                .interval(
                        "shrunkenLower",
                        "shrunkenUpper",
                        confidence,
                        PER_THOUSAND,
                        point -> point.shrunken().lower(),
                        point -> point.shrunken().upper());
    }

    static Answer of(BetweenCentresReport report) {
        List<CentrePoint> points = report.groups();
        return report.heading()
                .answer(
                        sentence(report),
                        List.of(
                                Columns.of(centre(), funnelColumns(report))
                                        .exhibit("Each centre by its uses", "", funnel(report), points),
                                Columns.of(centre(), mixColumns(report))
                                        .exhibit(
                                                "Allowing for chance: each centre's rate drawn towards the registry's",
                                                "",
                                                shrunken(report),
                                                points)),
                        report.notes());
    }

    private static Figure shrunken(BetweenCentresReport report) {
        return new Figure(
                Figure.Kind.INTERVALS,
                Unit.PER_THOUSAND,
                "Best estimate per 1,000 uses",
                "",
                report.groups().stream()
                        .map(point -> item(
                                point,
                                point.shrunken().estimate(),
                                point.shrunken().lower(),
                                point.shrunken().upper()))
                        .toList(),
                target(report),
                List.of());
    }

    private static String sentence(BetweenCentresReport report) {
        Double target = report.target();
        List<CentrePoint> seen = report.groups().stream()
                .filter(point -> point.flag() != null && point.flag() != Position.NO_DATA)
                .toList();
        if (target == null || seen.isEmpty()) {
            return "There is nothing to compare here.";
        }
        String rate = NumberText.perThousand(target);
        List<String> outside = seen.stream()
                .filter(point -> point.flag() != Position.WITHIN)
                .map(point -> label(point) + " (" + point.flag() + ")")
                .toList();
        long hidden = report.groups().stream().filter(CentrePoint::suppressed).count();
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
                    report.groups().stream().mapToLong(CentrePoint::uses).max().orElse(0)));
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
            CentrePoint point, @Nullable Double estimate, @Nullable Double lower, @Nullable Double upper) {
        return new Figure.Item(
                label(point),
                "",
                point.events(),
                point.uses(),
                estimate,
                lower,
                upper,
                mark(point.flag()),
                point.sentence());
    }

    private static Figure.Mark mark(@Nullable Position flag) {
        return flag == Position.ABOVE_95 || flag == Position.ABOVE_998
                ? Figure.Mark.HIGH
                : flag == Position.BELOW_95 || flag == Position.BELOW_998 ? Figure.Mark.LOW : Figure.Mark.NONE;
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
