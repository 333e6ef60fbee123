package entrapment.registry.access.web;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import io.github.bucket4j.TimeMeter;
import java.time.Duration;

/**
 * How often each of many callers may ask: as many requests as a minute allows at once, and then as many a minute. A
 * caller is forgotten when its minute's worth has long come back, so memory does not grow with the number of callers.
 */
final class RateLimit {

    private static final long MOST_CALLERS = 100_000;
    private static final Duration REMEMBERED = Duration.ofMinutes(10);
    private static final long NANOS = 1_000_000_000;

    private final long perMinute;
    private final TimeMeter time;
    private final Cache<String, Bucket> callers = Caffeine.newBuilder()
            .maximumSize(MOST_CALLERS)
            .expireAfterAccess(REMEMBERED)
            .build();

    RateLimit(long perMinute, TimeMeter time) {
        this.perMinute = perMinute;
        this.time = time;
    }

    /** Counts a request of this caller; returns the whole seconds to wait, 0 where it may go on. */
    long secondsToWait(String caller) {
        ConsumptionProbe probe = callers.get(caller, key -> full()).tryConsumeAndReturnRemaining(1);
        return probe.isConsumed() ? 0 : Math.max(1, (probe.getNanosToWaitForRefill() + NANOS - 1) / NANOS);
    }

    private Bucket full() {
        return Bucket.builder()
                .addLimit(limit -> limit.capacity(perMinute).refillGreedy(perMinute, Duration.ofMinutes(1)))
                .withCustomTimePrecision(time)
                .build();
    }
}
