package entrapment.registry.stats;

/**
 * The average run length of a CUSUM on whole points: an event adds m−1, an uneventful use takes 1, the floor is 0 and the
 * alarm is at H or above.
 *
 * <p>The linear system E(s) = 1 + p·E(s+m−1) + q·E(max(s−1, 0)), E = 0 from H on, goes down by single steps only. So the
 * state in which the sum first stands above s can be given in closed form: with L = m−1, it is i+L with probability
 * (p/D_i)·∏_{k=i+1..s} q/D_k for each i ≤ s with i+L &gt; s, where D_k = p+q·v_k and v_k is the probability that a sum that
 * leaves k−1 upward lands beyond k: the sum of those terms for s = k−1 but the one with i+L = k. Windows of such terms are
 * summed as the end of one block and the start of the next, so nothing is ever subtracted, and the work is linear in H,
 * where elimination would take H³.
 */
final class CusumLattice {

    /** An average run longer than this is beyond any registry, and near the end of the doubles. */
    private static final double LONGEST_RUN = 1e300;

    private final double p;
    private final int rise;
    private final int threshold;
    private final double[] out;

    /**
     * @param p probability of an event, in (0, 1)
     * @param m points that an event adds, plus one; at least 2
     * @param threshold H, at least 1
     */
    CusumLattice(double p, int m, int threshold) {
        this.p = p;
        this.rise = m - 1;
        this.threshold = threshold;
        this.out = new double[threshold];
    }

    /** E(0), infinite if beyond 1e300. */
    double averageRunLength() {
        double[] wait = waits();
        double[] expected = new double[threshold];
        double[] carried = new double[threshold];
        for (int end = threshold - 1; end >= 0; end -= rise) {
            int start = Math.max(0, end - rise + 1);
            solve(start, end, wait, expected, carried);
            if (!(expected[start] < LONGEST_RUN)) {
                return Double.POSITIVE_INFINITY;
            }
        }
        return expected[0];
    }

    /** c_s, the expected wait until the sum first stands above s; fills D_s. */
    private double[] waits() {
        double q = 1 - p;
        double[] wait = new double[threshold];
        double[] tail = new double[threshold];
        int window = rise - 1;
        double inBlock = 0;
        double decay = 1;
        out[0] = p;
        wait[0] = 1 / p;
        for (int s = 1; s < threshold; s++) {
            int i = s - 1;
            if (window > 0 && i > 0 && i % window == 0) {
                sumBackward(i - window, i - 1, tail);
                inBlock = 0;
                decay = 1;
            }
            inBlock = q / out[i] * inBlock + p / out[i];
            decay *= q / out[i];
            int first = s - window;
            double before = window > 0 && first < i - i % window ? tail[Math.max(0, first)] * decay : 0;
            double beyond = s < rise ? 1 : window == 0 ? 0 : Math.min(1, inBlock + before);
            out[s] = p + q * beyond;
            wait[s] = (1 + q * wait[s - 1]) / out[s];
        }
        return wait;
    }

    /** For each i of a block, Σ_{i'=i..end} (p/D_i')·∏_{k=i'+1..end} q/D_k. */
    private void sumBackward(int start, int end, double[] tail) {
        double sum = 0;
        double decay = 1;
        for (int i = end; i >= start; i--) {
            sum += p / out[i] * decay;
            tail[i] = sum;
            decay *= (1 - p) / out[i];
        }
    }

    /**
     * E(s) for s = end … start, one block of at most {@code rise} states. The window of E(s) holds i = s−rise+1 … s: those in
     * this block have i+rise above the block, known and summed by recurrence; those in the block below have i+rise in this
     * block and come in one by one as s falls.
     */
    private void solve(int start, int end, double[] wait, double[] expected, double[] carried) {
        double q = 1 - p;
        double above = 0;
        double fall = 1;
        for (int s = start; s <= end; s++) {
            above = q / out[s] * above + p / out[s] * at(expected, s + rise);
            fall *= q / out[s];
            expected[s] = above;
            carried[s] = fall;
        }
        double below = 0;
        double decay = 1;
        for (int s = end; s >= start; s--) {
            int i = s - rise + 1;
            if (i < start && i >= 0) {
                below += p / out[i] * decay * at(expected, i + rise);
                decay *= q / out[i];
            }
            expected[s] += wait[s] + below * carried[s];
        }
    }

    private double at(double[] expected, int s) {
        return s < threshold ? expected[s] : 0;
    }
}
