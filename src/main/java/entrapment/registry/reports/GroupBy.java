package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Fingerprint;
import entrapment.registry.intake.Parameters;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Tally;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What a rate can be split by: a factor of cases and uses, or the place and time of the cell.
 *
 * @param factor null for a centre, period or year
 */
record GroupBy(@JsonValue String code, @Nullable Factor factor) {

    /** What another centre is called for whoever may not see it. */
    static final String OTHER_CENTRES = "other-centres";

    static final GroupBy CENTRE = new GroupBy("centre", null);

    static final GroupBy PERIOD = new GroupBy("period", null);

    static final GroupBy YEAR = new GroupBy("year", null);

    /** The factors alone. */
    static final List<GroupBy> FACTORS =
            Stream.of(Factor.values()).map(GroupBy::of).toList();

    /** Every axis, the factors first. */
    static final List<GroupBy> ALL = Stream.concat(
                    Stream.of(Factor.values()).map(GroupBy::of), Stream.of(CENTRE, PERIOD, YEAR))
            .toList();

    static GroupBy of(Factor factor) {
        return new GroupBy(factor.code(), factor);
    }

    /** The axes of this parameter, which may be {@code allowed}; others are refused. */
    static List<GroupBy> read(Parameters parameters, String name, List<GroupBy> allowed) {
        return parameters.list(name).stream()
                .flatMap(code -> {
                    Optional<GroupBy> axis = allowed.stream()
                            .filter(candidate -> candidate.code.equals(code))
                            .findFirst();
                    if (axis.isEmpty()) {
                        parameters.refuse(
                                name,
                                "not-a-code",
                                name + " must be of "
                                        + String.join(
                                                ", ",
                                                allowed.stream()
                                                        .map(GroupBy::code)
                                                        .toList()));
                    }
                    return axis.stream();
                })
                .toList();
    }

    /** A centre's name for whoever asks: the centres that the viewer may not see are one. */
    static String name(String centre, Viewer viewer) {
        return viewer.isSteward() || centre.equals(viewer.centre()) ? centre : OTHER_CENTRES;
    }

    /** The factors among some axes, in the order in which a tally is asked for them. */
    static List<Factor> factors(List<GroupBy> axes) {
        return axes.stream().flatMap(axis -> Stream.ofNullable(axis.factor)).toList();
    }

    /** Centres by name for whoever may see them, all others as one. */
    static UnaryOperator<String> masking(Viewer viewer) {
        return centre -> name(centre, viewer);
    }

    /**
     * Names for centres that must stay apart: their own for whoever may see them; for an analyst every other centre has a
     * number, in an order that says nothing of its name or size.
     */
    static UnaryOperator<String> pseudonyms(Collection<String> centres, Viewer viewer) {
        if (viewer.isSteward()) {
            return UnaryOperator.identity();
        }
        List<String> others = centres.stream()
                .filter(centre -> !centre.equals(viewer.centre()))
                .sorted(Comparator.comparing(centre -> Fingerprint.hex(viewer.centre() + "|" + centre)))
                .toList();
        return centre -> centre.equals(viewer.centre()) ? centre : "centre-" + (others.indexOf(centre) + 1);
    }

    /** The level of a tally on this axis, a centre by the name it is given. */
    String level(Tally tally, List<Factor> asked, UnaryOperator<String> centreName) {
        if (factor != null) {
            return tally.levels().get(asked.indexOf(factor));
        }
        return switch (code) {
            case "period" -> tally.period().toString();
            case "year" -> Integer.toString(tally.period().year());
            default -> centreName.apply(tally.centre());
        };
    }

    /** Codes in the order of their list, sizes by size, all else by text; what is unknown comes last. */
    Comparator<String> order() {
        Comparator<String> unknownLast = Comparator.comparing(Factor.UNKNOWN::equals);
        if (factor == Factor.DEVICE_SIZE_MM) {
            return unknownLast.thenComparing(
                    level -> level.equals(Factor.UNKNOWN) ? BigDecimal.ZERO : new BigDecimal(level));
        }
        if (factor == null) {
            return unknownLast.thenComparing(Comparator.naturalOrder());
        }
        List<String> levels = factor.levels();
        return unknownLast.thenComparing(levels::indexOf);
    }
}
