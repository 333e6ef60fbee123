package entrapment.registry.releases;

import entrapment.registry.access.DataCut;
import entrapment.registry.exports.CsvWriter;
import entrapment.registry.releases.OutsideAttack.Row;
import entrapment.registry.reports.YearlyCount;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/** A network that counts, corrects and releases, year after year; every number from a seed. */
final class History {

    static final int FIRST_YEAR = 2021;

    private final Random random;
    private final Proposal.Codes codes;
    private final double mean;
    private final int mostSpared;
    private final List<YearlyCount> frozen = new ArrayList<>();
    private final List<OutsideRelease> releases = new ArrayList<>();

    History(long seed, int classes, int harms, double mean) {
        this(seed, classes, harms, mean, 300);
    }

    /** @param mostSpared the uses without an event of one class and year, at most */
    History(long seed, int classes, int harms, double mean, int mostSpared) {
        this.mostSpared = mostSpared;
        random = new Random(seed);
        codes = new Proposal.Codes(names("class-", classes), names("harm-", harms));
        this.mean = mean;
    }

    private static List<String> names(String prefix, int number) {
        List<String> names = new ArrayList<>();
        for (int each = 0; each < number; each++) {
            names.add(prefix + (char) ('a' + each));
        }
        return names;
    }

    Proposal.Codes codes() {
        return codes;
    }

    List<OutsideRelease> releases() {
        return releases;
    }

    List<YearlyCount> frozen() {
        return frozen;
    }

    /** Counts the years that no release has. */
    List<YearlyCount> countThrough(int throughYear) {
        int from = releases.isEmpty()
                ? FIRST_YEAR
                : releases.get(releases.size() - 1).throughYear() + 1;
        List<YearlyCount> counts = new ArrayList<>(frozen);
        for (int year = from; year <= throughYear; year++) {
            for (String deviceClass : codes.deviceClasses()) {
                Map<String, Long> harm = new LinkedHashMap<>();
                for (String degree : codes.harms()) {
                    harm.put(degree, poisson(mean * (random.nextInt(4) == 0 ? 4 : 1)));
                }
                long events = harm.values().stream().mapToLong(Long::longValue).sum();
                long spared = random.nextInt(6) == 0 ? random.nextInt(5) : random.nextInt(mostSpared);
                counts.add(new YearlyCount(deviceClass, year, events + spared, harm));
            }
        }
        return counts;
    }

    private long poisson(double expected) {
        double limit = StrictMath.exp(-expected);
        double product = random.nextDouble();
        long count = 0;
        while (product > limit) {
            product *= random.nextDouble();
            count++;
        }
        return count;
    }

    Proposal propose(List<YearlyCount> counts, int throughYear, int threshold) {
        return Proposal.of(releases, counts, codes, FIRST_YEAR, throughYear, threshold);
    }

    /** Keeps a release, whether it is safe or not. */
    OutsideRelease keep(List<YearlyCount> counts, Map<Sum, Long> figures, Audit audit, int throughYear, int threshold) {
        OutsideRelease release = new OutsideRelease(
                releases.size() + 1,
                Instant.EPOCH,
                new DataCut(releases.size() + 1, Instant.EPOCH),
                FIRST_YEAR,
                throughYear,
                threshold,
                figures,
                audit);
        releases.add(release);
        frozen.clear();
        frozen.addAll(counts);
        return release;
    }

    Proposal release(int throughYear, int threshold) {
        List<YearlyCount> counts = countThrough(throughYear);
        Proposal proposal = propose(counts, throughYear, threshold);
        keep(counts, proposal.figures(), proposal.audit(), throughYear, threshold);
        return proposal;
    }

    /** What each release looks like outside. */
    List<String> files() {
        return releases.stream()
                .map(release ->
                        CsvWriter.write(ReleaseView.of(release, releases).table(), true))
                .toList();
    }

    /** The truth about anything, added up from the counts by a way of its own. */
    static long truth(Row row, List<YearlyCount> counts) {
        long sum = 0;
        for (YearlyCount count : counts) {
            if (count.year() < row.first()
                    || count.year() > row.last()
                    || !(row.deviceClass().equals("any") || row.deviceClass().equals(count.deviceClass()))) {
                continue;
            }
            long events =
                    row.harm().equals("any") ? count.events() : count.harm().getOrDefault(row.harm(), 0L);
            sum += switch (row.measure()) {
                case "events" -> events;
                case "uses" -> count.uses();
                default -> count.uses() - count.events();
            };
        }
        return sum;
    }

    /** Everything whose smallness matters: hidden rows, uses without an event, and what a release has beyond an earlier. */
    Set<Row> targets() {
        Set<Row> targets = new LinkedHashSet<>();
        List<String> classes = new ArrayList<>(codes.deviceClasses());
        classes.add("any");
        int last = releases.get(releases.size() - 1).throughYear();
        for (String deviceClass : classes) {
            for (String measure : List.of("events", "uses", "spared")) {
                for (int year = FIRST_YEAR; year <= last; year++) {
                    targets.add(new Row(measure, deviceClass, "any", year, year, "•"));
                }
                for (int from : firstYears()) {
                    for (OutsideRelease release : releases) {
                        if (release.throughYear() >= from) {
                            targets.add(new Row(measure, deviceClass, "any", from, release.throughYear(), "•"));
                        }
                    }
                }
            }
            for (String harm : codes.harms()) {
                for (int from : firstYears()) {
                    for (OutsideRelease release : releases) {
                        if (release.throughYear() >= from) {
                            targets.add(new Row("events", deviceClass, harm, from, release.throughYear(), "•"));
                        }
                    }
                }
            }
        }
        return targets;
    }

    private Set<Integer> firstYears() {
        Set<Integer> firstYears = new LinkedHashSet<>();
        firstYears.add(FIRST_YEAR);
        releases.stream().limit(releases.size() - 1).forEach(release -> firstYears.add(release.throughYear() + 1));
        firstYears.removeIf(year -> year > releases.get(releases.size() - 1).throughYear());
        return firstYears;
    }

    /** The small targets that the outside works out too well, from all files together. */
    List<Row> recovered(List<String> files, int threshold) {
        OutsideAttack attack = new OutsideAttack(files);
        return targets().stream()
                .filter(row -> truth(row, frozen) >= 1 && truth(row, frozen) < threshold)
                .filter(row -> !attack.range(row).guards(threshold))
                .toList();
    }
}
