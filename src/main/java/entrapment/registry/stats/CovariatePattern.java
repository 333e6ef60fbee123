package entrapment.registry.stats;

import java.util.Map;

/**
 * Uses that are alike in every factor, with their events.
 *
 * @param levels the level of each factor by the factor's name; other entries, such as the centre, are allowed
 * @param numbers the value of each numeric term by its name
 * @param proportion the events of these uses
 */
public record CovariatePattern(Map<String, String> levels, Map<String, Double> numbers, Proportion proportion) {

    private static final double LARGEST = 1e9;

    /** @throws IllegalArgumentException if a number is outside [−1e9, 1e9] or not a number */
    public CovariatePattern {
        levels = Map.copyOf(levels);
        numbers = Map.copyOf(numbers);
        numbers.forEach((name, value) -> Counts.requireReal(name, value, -LARGEST, LARGEST));
    }

    String level(String factor) {
        String level = levels.get(factor);
        if (level == null) {
            throw new IllegalArgumentException("every pattern must have a level of " + factor);
        }
        return level;
    }

    double number(String term) {
        Double number = numbers.get(term);
        if (number == null) {
            throw new IllegalArgumentException("every pattern must have a number for " + term);
        }
        return number;
    }
}
