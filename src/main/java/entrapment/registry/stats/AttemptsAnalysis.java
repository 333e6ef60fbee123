package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/**
 * Three questions with three denominators: was the case solved, did the first attempt succeed, did an attempt succeed?
 * Later attempts happen in harder cases; techniques must not be ranked by success per attempt.
 *
 * @param cases number of cases
 * @param attempts number of attempts
 * @param perAttempt successes of attempts, allowing for cases
 * @param perCase cases with a success
 * @param firstAttempt cases whose first attempt succeeded
 * @param afterFailure attempts that came after a failed one
 * @param byAttemptNumber first, second, … attempts of the cases that came so far
 * @param meanAttemptsPerCase {@code null} without a case
 * @param notes why a figure is missing or to be read with care
 */
public record AttemptsAnalysis(
        long cases,
        long attempts,
        ClusteredProportion perAttempt,
        Success perCase,
        Success firstAttempt,
        AfterFailure afterFailure,
        List<AttemptNumber> byAttemptNumber,
        @Nullable Double meanAttemptsPerCase,
        List<Note> notes) {

    /**
     * Cases that succeeded.
     *
     * @param successes of all cases
     * @param estimate {@code null} without a case
     * @param wilson its interval
     */
    public record Success(long successes, @Nullable Double estimate, Interval wilson) {}

    /**
     * Rescue after a failure, as a count and a share: attempts here share cases, so no interval.
     *
     * @param attempts that came after at least one failure in their case
     * @param successes among them
     * @param estimate {@code null} without such an attempt
     */
    public record AfterFailure(
            long attempts, long successes, @Nullable Double estimate) {}

    /**
     * The j-th attempts.
     *
     * @param attempt j, from 1
     * @param attempted cases that came to a j-th attempt
     * @param successes at the j-th attempt
     * @param estimate of those attempted
     * @param wilson its interval
     */
    public record AttemptNumber(
            int attempt,
            long attempted,
            long successes,
            @Nullable Double estimate,
            Interval wilson) {}

    /**
     * Success per case, at first attempt, by attempt number, after a failure and per attempt.
     *
     * <p>Valid for independent cases. Per attempt as {@link ClusteredProportion#of}; all other intervals are Wilson's over
     * cases, {@link Proportion#interval}, which hold their references and accuracy.
     *
     * <p>Edges: no case: every estimate {@code null}, note {@code NO_EXPOSURE}.
     *
     * <p><b>Same as</b> R {@code survey::svyratio} per attempt and {@code prop.test(x, n, correct = FALSE)} elsewhere.
     *
     * @param patterns in any order; splitting one into two changes nothing
     * @throws IllegalArgumentException if there are more than 2³¹−1 attempts in all
     */
    public static AttemptsAnalysis of(List<AttemptPattern> patterns, Confidence confidence) {
        ClusteredProportion perAttempt = ClusteredProportion.of(
                patterns.stream()
                        .map(pattern -> new Cluster(pattern.results().size(), pattern.successes(), pattern.cases()))
                        .toList(),
                confidence);
        long cases = perAttempt.cases();
        return new AttemptsAnalysis(
                cases,
                perAttempt.attempts(),
                perAttempt,
                success(total(patterns, pattern -> pattern.results().contains(true) ? 1 : 0), cases, confidence),
                success(total(patterns, pattern -> pattern.results().get(0) ? 1 : 0), cases, confidence),
                afterFailure(patterns),
                byAttemptNumber(patterns, confidence),
                cases == 0 ? null : (double) perAttempt.attempts() / cases,
                perAttempt.notes());
    }

    private static Success success(long successes, long cases, Confidence confidence) {
        Proportion proportion = new Proportion(successes, cases);
        return new Success(successes, proportion.estimate(), proportion.interval(IntervalMethod.WILSON, confidence));
    }

    private static AfterFailure afterFailure(List<AttemptPattern> patterns) {
        long attempts = total(patterns, pattern -> pattern.afterFailure().size());
        long successes = total(patterns, pattern -> Collections.frequency(pattern.afterFailure(), true));
        return new AfterFailure(attempts, successes, new Proportion(successes, attempts).estimate());
    }

    private static List<AttemptNumber> byAttemptNumber(List<AttemptPattern> patterns, Confidence confidence) {
        List<AttemptNumber> numbers = new ArrayList<>();
        for (int j = 1; ; j++) {
            int index = j - 1;
            long attempted = total(patterns, pattern -> pattern.results().size() > index ? 1 : 0);
            if (attempted == 0) {
                return List.copyOf(numbers);
            }
            long successes = total(
                    patterns,
                    pattern -> pattern.results().size() > index
                                    && pattern.results().get(index)
                            ? 1
                            : 0);
            Success success = success(successes, attempted, confidence);
            numbers.add(new AttemptNumber(j, attempted, successes, success.estimate(), success.wilson()));
        }
    }

    /** The sum over all cases of a number each case of a pattern has. */
    private static long total(List<AttemptPattern> patterns, ToLongFunction<AttemptPattern> perCase) {
        return patterns.stream()
                .mapToLong(pattern -> pattern.cases() * perCase.applyAsLong(pattern))
                .sum();
    }
}
