package entrapment.registry.releases;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** What is known of some unknowns: those of {@code plus} less those of {@code minus} make {@code total}. */
final class Equation {

    private final int[] plus;
    private final int[] minus;
    private final long total;
    private final @Nullable Sum printed;

    /** @param printed the sum that was printed; null for a tie that everybody knows */
    Equation(int[] plus, int[] minus, long total, @Nullable Sum printed) {
        this.plus = plus;
        this.minus = minus;
        this.total = total;
        this.printed = printed;
    }

    int[] plus() {
        return plus;
    }

    int[] minus() {
        return minus;
    }

    long total() {
        return total;
    }

    @Nullable
    Sum printed() {
        return printed;
    }

    /** Whether these values satisfy it. */
    boolean holds(long[] values) {
        return sum(plus, values) - sum(minus, values) == total;
    }

    static long sum(int[] members, long[] values) {
        return Arrays.stream(members).mapToLong(each -> values[each]).sum();
    }
}
