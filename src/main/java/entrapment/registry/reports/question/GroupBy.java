package entrapment.registry.reports.question;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Fingerprint;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Labels;
import entrapment.registry.vocabulary.Level;
import entrapment.registry.vocabulary.Tally;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What a rate can be split by: a factor of cases and uses, or the place and time of the cell.
 *
 * @param factor null for a centre, period or year
 */
public record GroupBy(@JsonValue String code, @Nullable Factor factor) {

    /** What another centre is called for whoever may not see it. */
    public static final String OTHER_CENTRES = "other-centres";

    public static final GroupBy CENTRE = new GroupBy("centre", null);

    public static final GroupBy PERIOD = new GroupBy("period", null);

    public static final GroupBy YEAR = new GroupBy("year", null);

    public static final GroupBy DEVICE_CLASS = of(Factor.DEVICE_CLASS);

    /** The factors alone. */
    public static final List<GroupBy> FACTORS =
            Stream.of(Factor.values()).map(GroupBy::of).toList();

    /** All there is, the factors first. */
    public static final List<GroupBy> ALL =
            Stream.concat(FACTORS.stream(), Stream.of(CENTRE, PERIOD, YEAR)).toList();

    public static GroupBy of(Factor factor) {
        return new GroupBy(factor.code(), factor);
    }

    /** As people read it. */
    public String label() {
        return Labels.field(code);
    }

    /** The names of some groupings, in order. */
    public static List<String> codes(List<GroupBy> by) {
        return by.stream().map(GroupBy::code).toList();
    }

    /** A centre's name for whoever asks: the centres that the viewer may not see are one. */
    public static String name(String centre, Viewer viewer) {
        return viewer.isSteward() || centre.equals(viewer.centre()) ? centre : OTHER_CENTRES;
    }

    /** The factors among some groupings, in the order in which a tally is asked for them. */
    public static List<Factor> factors(List<GroupBy> by) {
        return by.stream().flatMap(each -> Stream.ofNullable(each.factor)).toList();
    }

    /** Centres by name for whoever may see them, all others as one. */
    public static UnaryOperator<String> masking(Viewer viewer) {
        return centre -> name(centre, viewer);
    }

    /**
     * Names for centres that must stay apart: their own for whoever may see them; for an analyst every other centre has a
     * number, in an order that says nothing of its name or size.
     */
    public static UnaryOperator<String> pseudonyms(Collection<String> centres, Viewer viewer) {
        if (viewer.isSteward()) {
            return UnaryOperator.identity();
        }
        List<String> others = centres.stream()
                .filter(centre -> !centre.equals(viewer.centre()))
                .sorted(Comparator.comparing(centre -> Fingerprint.hex(viewer.centre() + "|" + centre)))
                .toList();
        return centre -> centre.equals(viewer.centre()) ? centre : "centre-" + (others.indexOf(centre) + 1);
    }

    /**
     * The level of a tally, a centre by the name it is given.
     *
     * @param asked the factors that the tally was asked for, in order
     */
    public Level level(Tally tally, List<Factor> asked, UnaryOperator<String> centreName) {
        if (factor != null) {
            return Level.of(factor, tally.levels().get(asked.indexOf(factor)));
        }
        return switch (code) {
            case "period" -> new Level.OfPeriod(tally.period());
            case "year" -> new Level.OfYear(tally.period().year());
            default -> new Level.OfCentre(centreName.apply(tally.centre()));
        };
    }
}
