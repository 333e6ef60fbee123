package entrapment.registry.exports.slides;

import entrapment.registry.exports.Column;
import entrapment.registry.exports.Column.Kind;
import entrapment.registry.exports.Exhibit;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.Figure.Item;
import entrapment.registry.exports.Figure.Line;
import entrapment.registry.exports.Figure.Mark;
import entrapment.registry.exports.Figure.Path;
import entrapment.registry.exports.Figure.Point;
import entrapment.registry.exports.Limits;
import entrapment.registry.exports.Unit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** Slides of an invented network, of each kind and at their worst: long names, many rows, open ends, nothing at all. */
final class DeckSamples {

    static final Instant MADE = Instant.parse("2031-07-01T08:00:00Z");

    static final List<String> DEVICES = List.of(
            "Guidewire, polymer-jacketed, hydrophilic tip",
            "Drug-eluting stent, undeployed, lost",
            "Balloon, semi-compliant, ruptured",
            "Rotational burr",
            "Microcatheter, coiled, tip fractured",
            "Guide extension",
            "Intravascular imaging catheter, rotating");

    private static final List<String> TECHNIQUES = List.of(
            "Gentle traction",
            "Small balloon alongside",
            "Loop snare",
            "Twin-wire twist",
            "Guide extension advanced",
            "Deep guide intubation",
            "Second wire behind the burr",
            "Balloon inflated distally",
            "Microcatheter exchange",
            "Fixation with a stent",
            "Basket retriever",
            "Biopsy forceps",
            "Wire cut and sheathed",
            "Suction",
            "Vasodilator and waiting",
            "Crushed against the wall",
            "Retrograde approach",
            "Parallel guide catheter",
            "Surgical removal",
            "Left in place on purpose");

    private DeckSamples() {}

    static Deck deck(boolean dark, Slide... slides) {
        return new Deck("Entrapment meeting, second quarter of 2031", MADE, dark, List.of(slides));
    }

    static Slide slide(String title, String sentence, @Nullable Exhibit exhibit, String... lines) {
        return new Slide(
                title,
                sentence,
                exhibit,
                List.of(lines),
                List.of(
                        "3 returns are missing for 2031-Q2.",
                        "Retrospective registry data: associations in recorded cases, not proof of cause."),
                exhibit == null ? "" : "Wilson score interval (Wilson 1927)",
                "data cut: revision 812, 2031-07-01");
    }

    static Item item(
            String label,
            String series,
            @Nullable Long events,
            @Nullable Long of,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            Mark mark) {
        return new Item(label, series, events, of, estimate, lower, upper, mark, "In words: " + label + ".");
    }

    /** A figure and the table of its items. */
    static Exhibit exhibit(String title, Figure figure) {
        Kind kind =
                switch (figure.unit()) {
                    case PER_THOUSAND -> Kind.PER_THOUSAND;
                    case PERCENT -> Kind.PERCENT;
                    case RATIO -> Kind.RATIO;
                    case COUNT -> Kind.COUNT;
                    case NUMBER -> Kind.NUMBER;
                };
        boolean several =
                figure.items().stream().anyMatch(item -> !item.series().isEmpty());
        List<List<@Nullable Object>> rows = new ArrayList<>();
        for (Item item : figure.items()) {
            String label = several ? item.label() + ", " + item.series() : item.label();
            rows.add(Arrays.asList(
                    label, item.events(), item.of(), item.estimate(), new Limits(item.lower(), item.upper()), "more"));
        }
        return new Exhibit(
                title,
                "",
                figure,
                List.of(
                        Column.of("Group", Kind.TEXT),
                        Column.of("Events", Kind.COUNT),
                        Column.of("Uses", Kind.COUNT),
                        Column.of("Estimate", kind),
                        Column.of("95 % interval", kind),
                        Column.onPage("Remark", Kind.TEXT)),
                rows);
    }

    static Figure intervals(List<Item> items, Line... lines) {
        return new Figure(
                Figure.Kind.INTERVALS,
                Unit.PER_THOUSAND,
                "events per 1,000 uses, with 95 % interval",
                "",
                items,
                List.of(lines),
                List.of());
    }

    static Slide incidence() {
        List<Item> items = new ArrayList<>();
        for (int number = 0; number < DEVICES.size(); number++) {
            long of = 4_031 / (number + 1) + 260L * number;
            long events = number == 5 ? 0 : 12 - number;
            double p = (double) events / of;
            items.add(item(
                    DEVICES.get(number),
                    "",
                    events,
                    of,
                    p,
                    Math.max(0, p - 1.2 / Math.sqrt(of * 40.0)),
                    p + 3.0 / of + 1.4 * Math.sqrt(p / of),
                    number == 2 ? Mark.HIGH : Mark.NONE));
        }
        items.add(item("Coil", "", 0L, 0L, null, null, null, Mark.NONE));
        return slide(
                "How often does each kind of device become entrapped?",
                "Across the network 54 of 13,230 uses ended in entrapment, 4.1 per 1,000 (95 % interval 3.1 to 5.3); rates"
                        + " of kinds with few uses are uncertain.",
                exhibit("Entrapment by kind of device", intervals(items, Line.at("network 4.1", 0.0041))));
    }

    static Slide techniques() {
        List<Item> items = new ArrayList<>();
        for (int number = 0; number < TECHNIQUES.size(); number++) {
            long of = 90 - 4L * number;
            long events = of * (60 - 2L * number) / 100;
            double p = (double) events / of;
            items.add(item(
                    TECHNIQUES.get(number),
                    "",
                    events,
                    of,
                    p,
                    Math.max(0, p - 0.9 / Math.sqrt((double) of)),
                    Math.min(1, p + 0.9 / Math.sqrt((double) of)),
                    Mark.NONE));
        }
        Figure figure = new Figure(
                Figure.Kind.INTERVALS,
                Unit.PERCENT,
                "retrieved, % of attempts, with 95 % interval",
                "",
                items,
                List.of(),
                List.of());
        return slide(
                "Which techniques brought the device out?",
                "Of 1,040 attempts 435 retrieved the device.",
                exhibit("Success by technique, most used first", figure));
    }

    static Slide series() {
        List<Item> items = new ArrayList<>();
        List<String> centres = List.of("Centre A", "Centre B", "Centre C", "Centre D", "Centre E", "Centre F");
        for (int number = 0; number < centres.size(); number++) {
            for (String series : List.of("calcified lesions", "other lesions")) {
                long of = 700 + 400L * number;
                long events = series.startsWith("c") ? 9 - number : number;
                double p = (double) events / of;
                items.add(item(
                        centres.get(number),
                        series,
                        events,
                        of,
                        p,
                        p * 0.5,
                        p * 1.6 + 3.0 / of,
                        number == 1 ? Mark.OWN : Mark.NONE));
            }
        }
        return slide(
                "Do calcified lesions entrap more often in every centre?",
                "In four of six centres the rate was higher in calcified lesions; the intervals overlap.",
                exhibit("Entrapment by centre and lesion", intervals(items)));
    }

    static Slide forest() {
        List<Item> items = new ArrayList<>();
        double[][] ratios = {
            {0.02, 0.003, 0.15},
            {0.4, 0.1, 1.5},
            {0.93, 0.6, 1.44},
            {1.2, 0.8, 1.9},
            {1.8, 1.1, 3.1},
            {2.6, 1.4, 4.9},
            {3.57, 1.9, 6.8},
            {8.8, 2.2, 34},
            {27, 4.4, 168},
            {60, 9, Double.POSITIVE_INFINITY}
        };
        List<String> factors = List.of(
                "Radial access",
                "Lesion under 10 mm",
                "Age over 75",
                "Diabetes",
                "Reference diameter under 2.5 mm",
                "Angulation over 45 degrees",
                "Severe calcification",
                "Chronic total occlusion",
                "Earlier stent struts in the path",
                "Burr stalled before, with loss of rotation");
        for (int number = 0; number < ratios.length; number++) {
            double[] ratio = ratios[number];
            items.add(item(factors.get(number), "", null, null, ratio[0], ratio[1], ratio[2], Mark.NONE));
        }
        items.add(item("Device used twice", "", 3L, 11L, null, null, null, Mark.NONE));
        Figure figure = new Figure(
                Figure.Kind.FOREST,
                Unit.RATIO,
                "odds ratio, with 95 % interval (logarithmic)",
                "",
                items,
                List.of(),
                List.of());
        return slide(
                "Which circumstances go with entrapment?",
                "Severe calcification, an occlusion and earlier struts were found more often in recorded cases; this is an"
                        + " association and not a cause.",
                exhibit("Odds ratio of each circumstance", figure));
    }

    static Slide narrowForest() {
        List<Item> items = List.of(
                item("Severe calcification", "crude", 41L, 901L, 3.1, 2.0, 4.9, Mark.NONE),
                item("Severe calcification", "adjusted", 41L, 901L, 2.4, 1.5, 3.9, Mark.NONE),
                item("Diabetes", "crude", 30L, 1_420L, 1.3, 0.8, 2.1, Mark.NONE),
                item("Diabetes", "adjusted", 30L, 1_420L, 1.1, 0.7, 1.8, Mark.NONE),
                item("Radial access", "crude", 62L, 2_100L, 0.7, 0.5, 1.1, Mark.NONE),
                item("Radial access", "adjusted", 62L, 2_100L, 0.8, 0.5, 1.2, Mark.NONE));
        Figure figure = new Figure(
                Figure.Kind.FOREST,
                Unit.RATIO,
                "odds ratio, with 95 % interval (logarithmic)",
                "",
                items,
                List.of(),
                List.of());
        return slide(
                "Does calcification still matter when the rest is allowed for?",
                "Adjusted for five circumstances the odds ratio of severe calcification was 2.4 (1.5 to 3.9).",
                exhibit("Crude and adjusted odds ratios", figure));
    }

    static Slide control() {
        List<Item> items = new ArrayList<>();
        for (int quarter = 0; quarter < 16; quarter++) {
            long of = 900 + 37L * ((quarter * 7) % 11);
            long events = quarter == 11 ? 13 : quarter == 5 ? 0 : 3 + (quarter * 5) % 4;
            double width = 3 * Math.sqrt(0.0044 / of);
            items.add(item(
                    (2027 + quarter / 4) + "-Q" + (quarter % 4 + 1),
                    "",
                    events,
                    of,
                    (double) events / of,
                    Math.max(0, 0.0044 - width),
                    0.0044 + width,
                    quarter == 11 ? Mark.HIGH : quarter == 5 ? Mark.LOW : Mark.NONE));
        }
        Figure figure = new Figure(
                Figure.Kind.CONTROL,
                Unit.PER_THOUSAND,
                "events per 1,000 uses",
                "quarter",
                items,
                List.of(Line.at("mean 4.4", 0.0044)),
                List.of());
        return slide(
                "Has the rate changed over time?",
                "One of 16 quarters, 2029-Q4, lay above its upper limit.",
                exhibit("Rate in each quarter, with limits of three standard deviations", figure));
    }

    static Slide funnel() {
        List<Item> items = new ArrayList<>();
        long[] uses = {320, 900, 1_450, 2_300, 3_100, 5_160};
        long[] events = {3, 3, 14, 8, 13, 20};
        for (int centre = 0; centre < uses.length; centre++) {
            Mark mark = centre == 2 ? Mark.HIGH : centre == 4 ? Mark.OWN : Mark.NONE;
            items.add(item(
                    "Centre " + (char) ('A' + centre),
                    "",
                    events[centre],
                    uses[centre],
                    (double) events[centre] / uses[centre],
                    0.001,
                    0.02,
                    mark));
        }
        Figure figure = new Figure(
                Figure.Kind.FUNNEL,
                Unit.PER_THOUSAND,
                "events per 1,000 uses",
                "uses in the period",
                items,
                List.of(
                        Line.at("network 4.6", 0.0046),
                        curve("upper 95 % limit", 1.96),
                        curve("lower 95 % limit", -1.96),
                        curve("upper 99.8 % limit", 3.09),
                        curve("lower 99.8 % limit", -3.09)),
                List.of());
        return slide(
                "Does any centre differ from the others by more than chance?",
                "Centre C lay above the 99.8 % limit; every other centre lay within the limits of chance.",
                exhibit("Rate of each centre by its uses", figure));
    }

    private static Line curve(String label, double z) {
        return new Line(
                label,
                IntStream.rangeClosed(1, 60)
                        .mapToObj(step ->
                                new Point(step * 100, Math.max(0, 0.0046 + z * Math.sqrt(0.0046 / (step * 100)))))
                        .toList());
    }

    static Slide shares() {
        List<Item> items = new ArrayList<>();
        List<String> harms = List.of("no harm", "prolonged procedure", "perforation or dissection", "surgery", "death");
        double[] shares = {0.52, 0.24, 0.13, 0.08, 0.03};
        for (int device = 0; device < DEVICES.size(); device++) {
            for (int harm = 0; harm < harms.size(); harm++) {
                double share = Math.round((shares[harm] + (harm == 0 ? -0.04 : 0.01) * device) * 1000) / 1000.0;
                items.add(item(
                        DEVICES.get(device),
                        harms.get(harm),
                        Math.round(share * 200),
                        200L,
                        share,
                        null,
                        null,
                        Mark.NONE));
            }
        }
        Figure figure = new Figure(Figure.Kind.SHARES, Unit.PERCENT, "% of cases", "", items, List.of(), List.of());
        return slide(
                "What harm did the patients come to?",
                "In 52 % of guidewire cases there was no harm; 3 % died.",
                exhibit("Worst harm by device", figure));
    }

    static Slide flow() {
        List<Path> paths = new ArrayList<>();
        for (int number = 0; number < 15; number++) {
            List<String> steps = new ArrayList<>();
            for (int step = 0; step <= number % 5; step++) {
                steps.add(TECHNIQUES.get((number * 3 + step * 5) % TECHNIQUES.size()));
            }
            paths.add(
                    new Path(steps, number % 3 == 0 ? "retrieved whole" : "part left in the vessel", 40 - 2L * number));
        }
        Figure figure = new Figure(Figure.Kind.FLOW, Unit.COUNT, "cases", "", List.of(), List.of(), paths);
        List<List<@Nullable Object>> rows = new ArrayList<>();
        rows.add(Arrays.asList("Gentle traction", 210L, 0.41));
        rows.add(Arrays.asList("Small balloon alongside", 96L, 0.55));
        rows.add(Arrays.asList("Loop snare", 61L, 0.36));
        return slide(
                "What was tried after what?",
                "Most began with gentle traction; a snare came second.",
                new Exhibit(
                        "Orders of techniques, most frequent first",
                        "",
                        figure,
                        List.of(
                                Column.of("First technique", Kind.TEXT),
                                Column.of("Cases", Kind.COUNT),
                                Column.of("Retrieved", Kind.PERCENT)),
                        rows));
    }

    static Slide tableOnly() {
        Exhibit with = Objects.requireNonNull(techniques().exhibit());
        return slide(
                "Which returns are missing?",
                "Nine of 24 returns are missing, so that events of these quarters are not counted.",
                new Exhibit(with.title(), "", null, with.columns(), with.rows()));
    }

    static Slide empty(Figure.Kind kind) {
        Figure figure =
                new Figure(kind, Unit.PER_THOUSAND, "events per 1,000 uses", "", List.of(), List.of(), List.of());
        return slide("How often?", "No uses were returned for this period.", exhibit("By device", figure));
    }

    static Slide text(int lines) {
        String[] texts = new String[lines];
        for (int line = 0; line < lines; line++) {
            texts[line] = "Action " + (line + 1) + ": centre B sends the returns of 2031-Q1 and Q2"
                    + (line % 3 == 0
                            ? ", and says which of the uses were of the polymer-jacketed wire, so that they can be counted"
                            : "")
                    + ". Due 2031-08-15, open.";
        }
        return slide("What was agreed last time", "Seven of " + lines + " actions are open.", null, texts);
    }

    /** So many items of one kind. */
    static Slide many(Figure.Kind kind, int count) {
        List<Item> items = IntStream.range(0, count)
                .mapToObj(number -> item(
                        "Item number " + (number + 1),
                        kind == Figure.Kind.SHARES ? "share" : "",
                        2L + number % 5,
                        500L + number,
                        0.004 + 0.001 * (number % 5),
                        0.001,
                        0.012,
                        Mark.NONE))
                .toList();
        Unit unit =
                kind == Figure.Kind.FOREST ? Unit.RATIO : kind == Figure.Kind.SHARES ? Unit.PERCENT : Unit.PER_THOUSAND;
        return slide(
                "How do " + count + " items look?",
                "They are all much alike.",
                exhibit("Items", new Figure(kind, unit, "axis", "across", items, List.of(), List.of())));
    }

    /** One of each. */
    static Deck all(boolean dark) {
        return deck(
                dark,
                incidence(),
                techniques(),
                series(),
                forest(),
                narrowForest(),
                control(),
                funnel(),
                shares(),
                flow(),
                tableOnly(),
                empty(Figure.Kind.INTERVALS),
                text(14),
                many(Figure.Kind.INTERVALS, 1),
                many(Figure.Kind.CONTROL, 200),
                many(Figure.Kind.FUNNEL, 200),
                many(Figure.Kind.SHARES, 200),
                many(Figure.Kind.FOREST, 200),
                slide("Questions", "", null));
    }
}
