package entrapment.registry.benchmark;

import entrapment.registry.stats.Cluster;
import entrapment.registry.stats.ClusteredProportion;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.OddsRatioAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.TwoByTwo;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What one cell of a report costs: a report asks for a few hundred of these. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class IntervalBenchmark {

    /** A registry in which one use in a thousand has an event. */
    @State(Scope.Benchmark)
    public static class Registry {

        @Param({"2000", "20000", "2000000"})
        public int uses;

        private Proportion proportion() {
            return new Proportion(uses / 1_000, uses);
        }
    }

    private final List<Cluster> cases =
            List.of(new Cluster(1, 1, 40), new Cluster(2, 1, 20), new Cluster(3, 1, 8), new Cluster(3, 0, 12));

    /** For scale: a closed formula. */
    @Benchmark
    public Interval wilson(Registry registry) {
        return registry.proportion().interval(IntervalMethod.WILSON, Confidence.DEFAULT);
    }

    @Benchmark
    public Interval clopperPearson(Registry registry) {
        return registry.proportion().interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT);
    }

    /** The whole conditional analysis, of which mid-P is a part: a tenth of the uses has three times the risk. */
    @Benchmark
    public OddsRatioAnalysis midP(Registry registry) {
        long events = Math.max(1, registry.uses / 4_000);
        long exposed = registry.uses / 10;
        return OddsRatioAnalysis.of(
                new TwoByTwo(events, exposed - events, 3 * events, registry.uses - exposed - 3 * events),
                Confidence.DEFAULT);
    }

    /** Eighty cases; as many as there are, those whose attempts went alike are one cluster. */
    @Benchmark
    public ClusteredProportion effectiveWilson() {
        return ClusteredProportion.of(cases, Confidence.DEFAULT);
    }
}
