package entrapment.registry.exports;

/** What a figure is measured in, and so how it is written for people. */
public enum Unit {
    /** A proportion in [0, 1], written per 1,000. */
    PER_THOUSAND("per 1,000", 1000),
    /** A proportion in [0, 1], written in per cent. */
    PERCENT("%", 100),
    /** A ratio of odds or of rates, drawn on a logarithmic scale. */
    RATIO("ratio", 1),
    /** A whole number. */
    COUNT("", 1),
    /** Any other number. */
    NUMBER("", 1);

    private final String sign;
    private final double factor;

    Unit(String sign, double factor) {
        this.sign = sign;
        this.factor = factor;
    }

    /** What stands behind the number or above its column: {@code %}, {@code per 1,000}; empty for a plain number. */
    public String sign() {
        return sign;
    }

    /** The number as an axis shows it: a proportion of 0.003 is 3 per 1,000. */
    public double onAxis(double value) {
        return value * factor;
    }

    /** The number as text, without its sign. */
    public String text(double value) {
        return switch (this) {
            case PER_THOUSAND -> NumberText.perThousand(value);
            case PERCENT -> NumberText.percent(value);
            case RATIO -> NumberText.ratio(value);
            case COUNT -> NumberText.count(Math.round(value));
            case NUMBER -> NumberText.oneDecimal(value);
        };
    }
}
