package entrapment.registry.stats;

import java.util.HashSet;
import java.util.List;

/** A factor or a number that a logistic model explains the event with. */
public sealed interface Term {

    /** As the caller wrote it; it begins the names of the term's columns. */
    String name();

    /**
     * A term with levels, one column for each but the reference.
     *
     * @param name of the term
     * @param levels two or more, all different, in the order of the columns
     * @param reference the level that all others are compared with
     */
    record Factor(String name, List<String> levels, String reference) implements Term {

        /** @throws IllegalArgumentException if there are fewer than two levels, two are equal, or the reference is none */
        public Factor {
            levels = List.copyOf(levels);
            Counts.require("number of levels of " + name, levels.size(), 2, Counts.LARGEST);
            if (new HashSet<>(levels).size() < levels.size()) {
                throw new IllegalArgumentException("levels of " + name + " must be different");
            }
            if (!levels.contains(reference)) {
                throw new IllegalArgumentException("reference of " + name + " must be one of its levels");
            }
        }
    }

    /**
     * A term that is a number; its odds ratio is per unit.
     *
     * @param name of the term and of its column
     */
    record Numeric(String name) implements Term {}
}
