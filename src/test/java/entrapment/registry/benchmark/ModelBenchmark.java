package entrapment.registry.benchmark;

import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.CovariatePattern;
import entrapment.registry.stats.DesignMatrix;
import entrapment.registry.stats.LogisticFirthAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.StratifiedOddsRatioAnalysis;
import entrapment.registry.stats.Stratum;
import entrapment.registry.stats.Term;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What the two dearest answers cost, of which a report or a request asks for one; each is to stay below a second. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class ModelBenchmark {

    private static final int NUMBERS = 9;

    private final List<Term> terms = IntStream.range(0, NUMBERS)
            .<Term>mapToObj(j -> new Term.Numeric("x" + j))
            .toList();
    private final List<CovariatePattern> patterns = patterns(new Random(20310101));
    private final List<Stratum> strata = strata(new Random(20310101));

    /** Two thousand patterns of up to twenty uses each: five factors of two levels, four numbers, about 200 events. */
    private static List<CovariatePattern> patterns(Random random) {
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < 2_000; i++) {
            Map<String, Double> numbers = new HashMap<>();
            for (int j = 0; j < NUMBERS; j++) {
                numbers.put("x" + j, j < 5 ? random.nextInt(2) : random.nextGaussian());
            }
            int of = 1 + random.nextInt(20);
            patterns.add(new CovariatePattern(Map.of(), numbers, new Proportion(random.nextInt(10) == 0 ? 1 : 0, of)));
        }
        return patterns;
    }

    /** Two hundred strata of two thousand uses and up to a hundred events each. */
    private static List<Stratum> strata(Random random) {
        List<Stratum> strata = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            strata.add(new Stratum(
                    "s" + i, new Proportion(random.nextInt(60), 1_000), new Proportion(random.nextInt(40), 1_000)));
        }
        return strata;
    }

    /** Ten penalised coefficients, each with both limits and its test from the profile; the design is built as well. */
    @Benchmark
    public LogisticFirthAnalysis firthWithProfileLimits() {
        return LogisticFirthAnalysis.of(DesignMatrix.of(terms, patterns), Confidence.DEFAULT);
    }

    /** Mantel–Haenszel with its companions and the exact conditional line over all strata. */
    @Benchmark
    public StratifiedOddsRatioAnalysis exactOverStrata() {
        return StratifiedOddsRatioAnalysis.of(strata, Confidence.DEFAULT);
    }
}
