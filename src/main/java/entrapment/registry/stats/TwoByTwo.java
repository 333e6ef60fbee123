package entrapment.registry.stats;

import org.apache.commons.math3.util.FastMath;
import org.jspecify.annotations.Nullable;

/**
 * Events and non-events with and without a factor.
 *
 * @param a exposed with event
 * @param b exposed without event
 * @param c reference with event
 * @param d reference without event
 */
public record TwoByTwo(long a, long b, long c, long d) {

    /** @throws IllegalArgumentException if a cell is negative, or a row holds more than 2³¹−1 */
    public TwoByTwo {
        Counts.require("a", a);
        Counts.require("b", b);
        Counts.require("c", c);
        Counts.require("d", d);
        Counts.require("a + b", a + b);
        Counts.require("c + d", c + d);
    }

    /** The table of two groups. */
    public static TwoByTwo of(Proportion exposed, Proportion reference) {
        return new TwoByTwo(
                exposed.events(),
                exposed.of() - exposed.events(),
                reference.events(),
                reference.of() - reference.events());
    }

    /** Whether all four margins are positive; otherwise the table says nothing about an association. */
    public boolean estimable() {
        return a + b > 0 && c + d > 0 && a + c > 0 && b + d > 0;
    }

    /** Whether a cell is 0. */
    boolean hasZeroCell() {
        return a == 0 || b == 0 || c == 0 || d == 0;
    }

    /**
     * The sample odds ratio ad/(bc), of the counts as they stand.
     *
     * @return infinite if bc = 0, 0 if ad = 0, {@code null} if a margin is empty
     */
    public @Nullable Double oddsRatio() {
        return estimable() ? (double) a * d / ((double) b * c) : null;
    }

    /**
     * Woolf's line for this table: log OR ± z√(1/a+1/b+1/c+1/d) [1].
     *
     * <p>Valid for large cells. If a cell is 0, ½ is added to all four [2, 3] and the answer says so; without a zero
     * nothing is added. A table with an empty margin gives {@code null}s.
     *
     * <p><b>Same as</b> R {@code epitools::oddsratio.wald}, {@code metafor::escalc("OR", to = "only0")}. Accuracy:
     * relative 1e-14.
     *
     * <p>[1] Woolf B, Ann Hum Genet 1955;19:251. [2] Haldane JBS, Ann Hum Genet 1956;20:309. [3] Anscombe FJ, Biometrika
     * 1956;43:461.
     */
    public Woolf woolf(Confidence confidence) {
        return hasZeroCell() ? haldaneAnscombe(confidence) : woolf(0, confidence.z());
    }

    /**
     * Woolf's line with ½ added to all four cells, whether or not one is 0, as some papers print it. A table with an empty
     * margin gives {@code null}s: there is no correction for nothing.
     *
     * <p><b>Same as</b> R {@code metafor::escalc("OR", to = "all")}. Accuracy and references as {@link #woolf}.
     */
    public Woolf haldaneAnscombe(Confidence confidence) {
        return estimable() ? woolf(0.5, confidence.z()) : Woolf.NOT_ESTIMABLE;
    }

    private Woolf woolf(double added, double z) {
        double oddsRatio = (a + added) * (d + added) / ((b + added) * (c + added));
        double se = FastMath.sqrt(1 / (a + added) + 1 / (b + added) + 1 / (c + added) + 1 / (d + added));
        double factor = FastMath.exp(z * se);
        return new Woolf(oddsRatio, oddsRatio / factor, oddsRatio * factor, se, added > 0);
    }
}
