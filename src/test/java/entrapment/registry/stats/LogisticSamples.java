package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.stream.IntStream;

/** Designs for the tests of the logistic family. */
final class LogisticSamples {

    private LogisticSamples() {}

    static Term.Factor factor(String name, String... levels) {
        return new Term.Factor(name, List.of(levels), levels[0]);
    }

    static CovariatePattern at(Map<String, String> levels, long events, long of) {
        return new CovariatePattern(levels, Map.of(), new Proportion(events, of));
    }

    static CovariatePattern at(String name, double value, long events, long of) {
        return new CovariatePattern(Map.of(), Map.of(name, value), new Proportion(events, of));
    }

    /** One factor with the levels 0, 1, …, the first the reference. */
    static DesignMatrix oneFactor(Proportion... levels) {
        String[] names =
                IntStream.range(0, levels.length).mapToObj(Integer::toString).toArray(String[]::new);
        List<CovariatePattern> patterns = new ArrayList<>();
        for (int i = 0; i < levels.length; i++) {
            patterns.add(new CovariatePattern(Map.of("f", names[i]), Map.of(), levels[i]));
        }
        return DesignMatrix.of(List.of(factor("f", names)), patterns);
    }

    /** A factor g of three levels and two numbers x, y over so many patterns of up to {@code most} trials. */
    static List<CovariatePattern> random(Random random, int patterns, int most) {
        List<CovariatePattern> list = new ArrayList<>();
        for (int i = 0; i < patterns; i++) {
            Map<String, Double> numbers = new HashMap<>();
            numbers.put("x", (double) random.nextInt(5));
            numbers.put("y", random.nextGaussian());
            int of = 1 + random.nextInt(most);
            int events = 0;
            for (int k = 0; k < of; k++) {
                events += random.nextInt(3) == 0 ? 1 : 0;
            }
            list.add(new CovariatePattern(
                    Map.of("g", "abc".substring(i % 3, i % 3 + 1)), numbers, new Proportion(events, of)));
        }
        return list;
    }

    static List<Term> randomTerms() {
        return List.of(factor("g", "a", "b", "c"), new Term.Numeric("x"), new Term.Numeric("y"));
    }

    static <T> T of(Map<String, T> coefficients, String column) {
        return Objects.requireNonNull(coefficients.get(column), column);
    }
}
