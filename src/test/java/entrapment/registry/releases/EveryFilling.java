package entrapment.registry.releases;

import entrapment.registry.releases.OutsideAttack.Row;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;

/**
 * Every table of whole numbers that agrees with what some releases print, written down one by one: how small and how large
 * is each sum in them? Tables are by device class, year and harm, with the uses that had no event beside them.
 */
final class EveryFilling {

    private static final long MOST = 30;
    private static final long LONGEST = 3_000_000;

    private record Place(String deviceClass, int year, String harm) {}

    private static final String SPARED = "spared";

    private final List<Place> places = new ArrayList<>();
    private final List<List<Integer>> holding = new ArrayList<>();
    private final List<Row> printed;
    private final long[] rest;
    private final int[] open;
    private final long[] values;
    private final Map<Row, long[]> ends = new LinkedHashMap<>();
    private final Map<Row, List<Integer>> targets = new LinkedHashMap<>();
    private long steps;

    EveryFilling(List<String> classes, List<String> harms, List<Integer> years, List<Row> printed, List<Row> asked) {
        for (String deviceClass : classes) {
            for (int year : years) {
                harms.forEach(harm -> places.add(new Place(deviceClass, year, harm)));
                places.add(new Place(deviceClass, year, SPARED));
            }
        }
        this.printed = printed;
        rest = printed.stream().mapToLong(row -> Long.parseLong(row.value())).toArray();
        open = new int[rest.length];
        values = new long[places.size()];
        for (Place place : places) {
            List<Integer> rows = new ArrayList<>();
            for (int row = 0; row < printed.size(); row++) {
                if (holds(printed.get(row), place)) {
                    rows.add(row);
                    open[row]++;
                }
            }
            holding.add(rows);
        }
        for (Row row : asked) {
            List<Integer> members = new ArrayList<>();
            for (int each = 0; each < places.size(); each++) {
                if (holds(row, places.get(each))) {
                    members.add(each);
                }
            }
            targets.put(row, members);
            ends.put(row, new long[] {Long.MAX_VALUE, Long.MIN_VALUE});
        }
    }

    private static boolean holds(Row row, Place place) {
        boolean spared = place.harm().equals(SPARED);
        return (row.deviceClass().equals("any") || row.deviceClass().equals(place.deviceClass()))
                && row.first() <= place.year()
                && place.year() <= row.last()
                && (spared ? !row.measure().equals("events") : !row.measure().equals(SPARED))
                && (spared || row.harm().equals("any") || row.harm().equals(place.harm()));
    }

    /** Goes through all of them; false if there are too many. */
    boolean run() {
        if (steps == 0) {
            fill(0);
        }
        return steps <= LONGEST;
    }

    long least(Row row) {
        return ends.getOrDefault(row, new long[2])[0];
    }

    long most(Row row) {
        return ends.getOrDefault(row, new long[2])[1];
    }

    private void fill(int at) {
        if (++steps > LONGEST) {
            return;
        }
        if (at == places.size()) {
            targets.forEach((row, members) -> {
                long sum = members.stream().mapToLong(each -> values[each]).sum();
                long[] end = ends.getOrDefault(row, new long[2]);
                end[0] = Math.min(end[0], sum);
                end[1] = Math.max(end[1], sum);
            });
            return;
        }
        List<Integer> rows = holding.get(at);
        OptionalLong forced = rows.stream()
                .filter(row -> open[row] == 1)
                .mapToLong(row -> rest[row])
                .findFirst();
        long largest = rows.stream().mapToLong(row -> rest[row]).min().orElse(MOST);
        for (long value = forced.orElse(0); value <= Math.min(largest, forced.orElse(MOST)); value++) {
            long taken = value;
            boolean agrees = rows.stream().allMatch(row -> open[row] > 1 || rest[row] == taken);
            if (agrees) {
                values[at] = value;
                rows.forEach(row -> take(row, taken, 1));
                fill(at + 1);
                rows.forEach(row -> take(row, -taken, -1));
            }
        }
    }

    private void take(int row, long value, int places) {
        rest[row] -= value;
        open[row] -= places;
    }

    int rows() {
        return printed.size();
    }
}
