package entrapment.registry.study;

import entrapment.registry.stats.Cluster;
import entrapment.registry.stats.ClusteredProportion;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * How often the interval of the success per attempt holds the truth, when attempts of one case share its difficulty.
 * Registries are drawn at random from a written seed; the truth is computed.
 */
final class AttemptsCoverage {

    static final int REGISTRIES = 20_000;

    private AttemptsCoverage() {}

    /** When a case ends. */
    enum Ending {
        AT_SUCCESS("at the first success, 4 attempts at most", 4),
        AFTER_ALL("after 3 attempts, whatever comes of them", 3),
        /** Nothing is clustered: the simulation can be held against an enumeration. */
        AFTER_ONE("after 1 attempt", 1);

        private final String title;
        private final int most;

        Ending(String title, int most) {
            this.title = title;
            this.most = most;
        }

        String title() {
            return title;
        }
    }

    /** How a case's chance of success at each attempt varies: one half of the cases has the first, the other the second. */
    enum Difficulty {
        ALIKE(0.6, 0.6),
        MIXED(0.9, 0.3),
        APART(0.98, 0.05);

        private final double easy;
        private final double hard;

        Difficulty(double easy, double hard) {
            this.easy = easy;
            this.hard = hard;
        }

        double easy() {
            return easy;
        }

        double hard() {
            return hard;
        }
    }

    /** A registry to draw again and again. */
    record Registry(Ending ending, Difficulty difficulty, int cases, long seed) {}

    /**
     * One interval's record.
     *
     * @param coverage share of the registries that gave an interval whose interval holds the truth
     * @param standardError Monte-Carlo standard error of {@code coverage}
     * @param none share of the registries that gave no interval
     */
    record Coverage(double coverage, double standardError, double none) {}

    /**
     * What became of a registry.
     *
     * @param truth expected successes over expected attempts
     * @param designEffect mean over the registries that have one
     */
    record Row(
            Registry registry,
            double truth,
            double designEffect,
            Coverage naive,
            Coverage effective,
            Coverage clusterT) {}

    static Row row(Registry registry) {
        SplittableRandom bits = new SplittableRandom(registry.seed());
        double truth = truth(registry);
        Count naive = new Count();
        Count effective = new Count();
        Count clusterT = new Count();
        double effects = 0;
        int withEffect = 0;
        for (int i = 0; i < REGISTRIES; i++) {
            ClusteredProportion drawn = ClusteredProportion.of(draw(registry, bits), Confidence.DEFAULT);
            naive.add(drawn.naiveWilson(), truth);
            effective.add(drawn.effectiveWilson(), truth);
            clusterT.add(drawn.clusterT(), truth);
            Double effect = drawn.designEffect();
            if (effect != null) {
                effects += effect;
                withEffect++;
            }
        }
        return new Row(
                registry, truth, effects / withEffect, naive.coverage(), effective.coverage(), clusterT.coverage());
    }

    /** E(successes)/E(attempts) of one case. */
    static double truth(Registry registry) {
        double successes = 0;
        double attempts = 0;
        for (double chance :
                List.of(registry.difficulty().easy(), registry.difficulty().hard())) {
            double reached = 1;
            for (int attempt = 1; attempt <= registry.ending().most; attempt++) {
                attempts += reached;
                successes += reached * chance;
                reached *= registry.ending() == Ending.AT_SUCCESS ? 1 - chance : 1;
            }
        }
        return successes / attempts;
    }

    private static List<Cluster> draw(Registry registry, SplittableRandom bits) {
        int most = registry.ending().most;
        int[][] cases = new int[most + 1][most + 1];
        for (int i = 0; i < registry.cases(); i++) {
            double chance = uniform(bits) < 0.5
                    ? registry.difficulty().easy()
                    : registry.difficulty().hard();
            int attempts = 0;
            int successes = 0;
            do {
                attempts++;
                successes += uniform(bits) < chance ? 1 : 0;
            } while (attempts < most && (successes == 0 || registry.ending() != Ending.AT_SUCCESS));
            cases[attempts][successes]++;
        }
        List<Cluster> clusters = new ArrayList<>();
        for (int m = 1; m <= most; m++) {
            for (int y = 0; y <= m; y++) {
                if (cases[m][y] > 0) {
                    clusters.add(new Cluster(m, y, cases[m][y]));
                }
            }
        }
        return clusters;
    }

    /** In [0, 1), of 53 bits: how Java makes a double of them has changed between versions, the bits have not. */
    private static double uniform(SplittableRandom bits) {
        return (bits.nextLong() >>> 11) * 0x1.0p-53;
    }

    /** Registries whose interval held the truth, missed it or was not given. */
    private static final class Count {
        private int held;
        private int given;

        void add(Interval interval, double truth) {
            Double lower = interval.lower();
            Double upper = interval.upper();
            if (lower != null && upper != null) {
                given++;
                held += lower <= truth && truth <= upper ? 1 : 0;
            }
        }

        Coverage coverage() {
            double share = (double) held / given;
            return new Coverage(share, Math.sqrt(share * (1 - share) / given), 1 - (double) given / REGISTRIES);
        }
    }
}
