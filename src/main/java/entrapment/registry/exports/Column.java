package entrapment.registry.exports;

import org.jspecify.annotations.Nullable;

/**
 * One column of an exhibit's table.
 *
 * @param title its heading, without the unit
 * @param kind how its cells are written
 * @param onSlide whether a slide, which has less room, shows it as well
 */
public record Column(String title, Kind kind, boolean onSlide) {

    /** How the cells of a column are written. */
    public enum Kind {
        /** Text as it is. */
        TEXT(null),
        COUNT(Unit.COUNT),
        PER_THOUSAND(Unit.PER_THOUSAND),
        PERCENT(Unit.PERCENT),
        RATIO(Unit.RATIO),
        NUMBER(Unit.NUMBER),
        P_VALUE(null);

        private final @Nullable Unit unit;

        Kind(@Nullable Unit unit) {
            this.unit = unit;
        }
    }

    /** A column that pages and slides show. */
    public static Column of(String title, Kind kind) {
        return new Column(title, kind, true);
    }

    /** A column that only pages have room for. */
    public static Column onPage(String title, Kind kind) {
        return new Column(title, kind, false);
    }

    /** Whether its cells line up at the right. */
    public boolean isNumber() {
        return kind != Kind.TEXT;
    }

    /** The heading with its unit. */
    public String heading() {
        String sign = kind.unit == null || kind == Kind.RATIO ? "" : kind.unit.sign();
        return sign.isEmpty() ? title : title + " (" + sign + ")";
    }

    /**
     * A cell as people read it.
     *
     * @param cell text, a whole number, a decimal number, {@link Limits}, or null where there is nothing to show
     */
    public String text(@Nullable Object cell) {
        if (cell instanceof Limits limits) {
            Double lower = limits.lower();
            Double upper = limits.upper();
            return lower == null && upper == null ? NOTHING : end(lower) + " to " + end(upper);
        }
        if (cell instanceof Double number) {
            return end(number);
        }
        if (cell instanceof Long count) {
            return NumberText.count(count);
        }
        return cell == null ? NOTHING : cell.toString();
    }

    private static final String NOTHING = "–";

    private String end(@Nullable Double value) {
        if (value == null) {
            return NOTHING;
        }
        if (kind == Kind.P_VALUE) {
            return NumberText.pValue(value).replace("= ", "");
        }
        if (value.isInfinite()) {
            return "no upper limit";
        }
        return kind.unit == null ? NumberText.exact(value) : kind.unit.text(value);
    }
}
