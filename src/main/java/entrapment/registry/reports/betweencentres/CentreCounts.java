package entrapment.registry.reports.betweencentres;

import entrapment.registry.reports.question.Counting;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IndirectStandardisationAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Level;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Events of uses by centre, then by stratum of the factors adjusted for.
 *
 * @param contradictory strata of a centre that are left out, as their events outnumber their uses
 */
record CentreCounts(Map<String, Map<List<Level>, Proportion>> byCentre, long contradictory) {

    static CentreCounts of(Counting counting) {
        Map<String, Map<List<Level>, Proportion>> byCentre = new TreeMap<>();
        long contradictory = 0;
        for (Counting.Group group : counting.groups()) {
            if (group.contradicts()) {
                contradictory++;
                continue;
            }
            List<Level> stratum = group.levels().subList(1, group.levels().size());
            byCentre.computeIfAbsent(group.levels().get(0).code(), centre -> new LinkedHashMap<>())
                    .put(stratum, new Proportion(group.events(), group.uses()));
        }
        return new CentreCounts(byCentre, contradictory);
    }

    /** By their codes, in order. */
    Set<String> centres() {
        return byCentre.keySet();
    }

    /** Of all strata together. */
    Proportion total(String centre) {
        return sum(strata(centre).values().stream());
    }

    private Map<List<Level>, Proportion> strata(String centre) {
        return byCentre.getOrDefault(centre, Map.of());
    }

    /** Observed against expected at the network's rate of each stratum, the centre's own data included in it. */
    IndirectStandardisationAnalysis standardised(String centre, Confidence confidence) {
        List<Proportion> network = new ArrayList<>();
        List<Proportion> observed = new ArrayList<>();
        strata(centre).forEach((stratum, proportion) -> {
            network.add(sum(byCentre.values().stream().flatMap(strata -> Stream.ofNullable(strata.get(stratum)))));
            observed.add(proportion);
        });
        return IndirectStandardisationAnalysis.of(network, observed, confidence);
    }

    private static Proportion sum(Stream<Proportion> parts) {
        return parts.reduce(new Proportion(0, 0), Proportion::plus);
    }
}
