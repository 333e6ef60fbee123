package entrapment.registry.reports;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.access.Viewer;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Tally;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What a rate can be split by: a factor of cases and uses, or the place and time of the cell.
 *
 * @param factor null for a centre, period or year
 */
record Axis(@JsonValue String code, @Nullable Factor factor) {

    /** What another centre is called for whoever may not see it. */
    static final String OTHER_CENTRES = "other-centres";

    /** Every axis, the factors first. */
    static final List<Axis> ALL = Stream.concat(
                    Stream.of(Factor.values()).map(Axis::of),
                    Stream.of("centre", "period", "year").map(code -> new Axis(code, null)))
            .toList();

    static Axis of(Factor factor) {
        return new Axis(factor.code(), factor);
    }

    static Optional<Axis> of(String code) {
        return ALL.stream().filter(axis -> axis.code.equals(code)).findFirst();
    }

    /** The factors among some axes, in the order in which a tally is asked for them. */
    static List<Factor> factors(List<Axis> axes) {
        return axes.stream().flatMap(axis -> Stream.ofNullable(axis.factor)).toList();
    }

    /** The level of a tally on this axis; centres that the viewer may not see are one. */
    String level(Tally tally, List<Factor> asked, Viewer viewer) {
        if (factor != null) {
            return tally.levels().get(asked.indexOf(factor));
        }
        return switch (code) {
            case "period" -> tally.period().toString();
            case "year" -> Integer.toString(tally.period().year());
            default -> viewer.isSteward() || tally.centre().equals(viewer.centre()) ? tally.centre() : OTHER_CENTRES;
        };
    }

    /** Codes in the order of their list, sizes by size, all else by text; what is unknown comes last. */
    Comparator<String> order() {
        Comparator<String> unknownLast = Comparator.comparing(Factor.UNKNOWN::equals);
        if (factor == Factor.DEVICE_SIZE_MM) {
            return unknownLast.thenComparing(
                    level -> level.equals(Factor.UNKNOWN) ? BigDecimal.ZERO : new BigDecimal(level));
        }
        return factor == null
                ? unknownLast.thenComparing(Comparator.naturalOrder())
                : unknownLast.thenComparing(factor.levels()::indexOf);
    }
}
