package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.releases.OutsideAttack;
import entrapment.registry.releases.OutsideAttack.Row;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** The demo network releases, corrects, and releases a further year; somebody outside has kept both files. */
class ReleaseEndToEndTests {

    private static final int THRESHOLD = 5;

    @TempDir
    private Path home;

    /** What the network itself counts, by the levels of an {@link OutsideAttack.Row}. */
    private final Map<List<Object>, Long> truth = new LinkedHashMap<>();

    @Test
    void nothingSmallIsWorkedOutFromTwoReleasesOfTheDemoNetwork() throws IOException {
        try (ServiceProcess service = ServiceProcess.startUnpacked(home, "--spring.profiles.active=demo")) {
            service.awaitOutput("Small numbers mislead");
            RegistryClient steward = service.steward();
            assertThat(steward.get("/api/reports/incidence?audience=outside").body())
                    .contains("POST /api/releases");

            count(steward, 2023, 2024);
            JsonNode first = release(steward, "{\"throughYear\": 2024}");
            correct(steward);
            count(steward, 2025, 2025);
            JsonNode second = release(steward, "{}");

            assertThat(first.required("years").toString()).isEqualTo("[2023,2024]");
            assertThat(second.required("years").toString()).isEqualTo("[2023,2024,2025]");
            String firstFile = file(steward, 1);
            String secondFile = file(steward, 2);
            assertHolds(List.of(firstFile), List.of(2023, 2024), List.of(2024));
            assertHolds(List.of(firstFile, secondFile), List.of(2023, 2024, 2025), List.of(2024, 2025));
            assertViewsShowWhatWasReleased(steward, firstFile, secondFile);
        }
    }

    private static JsonNode release(RegistryClient steward, String body) {
        Answer answer = steward.post("/api/releases", body);
        assertThat(answer.status()).as(answer.body()).isEqualTo(201);
        assertThat(answer.json().at("/audit/safe").booleanValue()).isTrue();
        return answer.json();
    }

    private static String file(RegistryClient steward, int number) {
        return steward.get("/api/releases/" + number + "?format=csv&comments=true")
                .body();
    }

    /** A new case and a new return of a released year: neither may reach the outside. */
    private static void correct(RegistryClient steward) {
        assertThat(steward.put(
                                "/api/centres/tarnoquill/cases/LATE-CASE-A",
                                CaseSamples.aCase().with("/period", "2024-Q1").json())
                        .status())
                .isEqualTo(201);
        assertThat(steward.put(
                                "/api/centres/tarnoquill/activity/2023-Q4",
                                "[{\"deviceClass\": \"stent\", \"uses\": 999}]")
                        .status())
                .isEqualTo(200);
    }

    /**
     * The network's own figures of some years as of now, without the cells that the incidence leaves out: the cells of
     * centre, period and device class whose cases the completeness report calls beyond the activity.
     */
    private void count(RegistryClient steward, int firstYear, int lastYear) {
        String period = "&from=" + firstYear + "-Q1&to=" + lastYear + "-Q4";
        steward.get("/api/reports/incidence?by=deviceClass,year" + period)
                .json()
                .required("groups")
                .valueStream()
                .forEach(group -> {
                    String deviceClass = group.at("/level/deviceClass").stringValue();
                    int year = Integer.parseInt(group.at("/level/year").stringValue());
                    add(
                            "events",
                            deviceClass,
                            "any",
                            year,
                            group.required("events").longValue());
                    add("uses", deviceClass, "any", year, group.required("uses").longValue());
                    add(
                            "spared",
                            deviceClass,
                            "any",
                            year,
                            group.required("uses").longValue()
                                    - group.required("events").longValue());
                });
        harm(steward, "/api/reports/harm?by=deviceClass,year" + period, 1);
        steward.get("/api/reports/completeness?" + period.substring(1))
                .json()
                .at("/beyondActivity/named")
                .forEach(cell -> harm(
                        steward,
                        "/api/reports/harm?by=deviceClass,year&centre=%s&from=%s&to=%s&deviceClass=%s"
                                .formatted(
                                        cell.required("centre").stringValue(),
                                        cell.required("period").stringValue(),
                                        cell.required("period").stringValue(),
                                        cell.required("deviceClass").stringValue()),
                        -1));
    }

    private void harm(RegistryClient steward, String path, int sign) {
        steward.get(path).json().required("groups").forEach(group -> group.required("harm")
                .propertyStream()
                .forEach(degree -> add(
                        "events",
                        group.at("/level/deviceClass").stringValue(),
                        degree.getKey(),
                        Integer.parseInt(group.at("/level/year").stringValue()),
                        sign * degree.getValue().required("events").longValue())));
    }

    private void add(String measure, String deviceClass, String harm, int year, long count) {
        for (String each : List.of(deviceClass, "any")) {
            truth.merge(List.of(measure, each, harm, year), count, Long::sum);
        }
    }

    private long truth(Row row) {
        long sum = 0;
        for (int year = row.first(); year <= row.last(); year++) {
            sum += truth.getOrDefault(List.of(row.measure(), row.deviceClass(), row.harm(), year), 0L);
        }
        return sum;
    }

    private void assertHolds(List<String> files, List<Integer> years, List<Integer> lastYears) {
        OutsideAttack attack = new OutsideAttack(files);
        assertThat(attack.shown()).isNotEmpty().allSatisfy(row -> {
            assertThat(Long.parseLong(row.value())).as(row.toString()).isEqualTo(truth(row));
            assertThat(truth(row) == 0 || truth(row) >= THRESHOLD)
                    .as(row.toString())
                    .isTrue();
        });
        List<Row> small = targets(attack, years, lastYears).stream()
                .filter(row -> truth(row) >= 1 && truth(row) < THRESHOLD)
                .toList();
        assertThat(small).hasSizeGreaterThan(20);
        assertThat(small).allSatisfy(row -> {
            OutsideAttack.Range range = attack.range(row);
            assertThat(range.guards(THRESHOLD)).as("%s %s", row, range).isTrue();
        });
    }

    /** Cells, totals, and what the second release has beyond the first. */
    private static Set<Row> targets(OutsideAttack attack, List<Integer> years, List<Integer> lastYears) {
        Set<Row> targets = new LinkedHashSet<>(attack.hidden());
        List<String> classes =
                attack.hidden().stream().map(Row::deviceClass).distinct().toList();
        List<String> harms = attack.hidden().stream().map(Row::harm).distinct().toList();
        for (String deviceClass : classes) {
            for (int last : lastYears) {
                for (int first : new int[] {years.get(0), lastYears.get(lastYears.size() - 1)}) {
                    if (first > last || (first == last && lastYears.size() == 1)) {
                        continue;
                    }
                    harms.forEach(harm -> targets.add(new Row("events", deviceClass, harm, first, last, "•")));
                    targets.add(new Row("uses", deviceClass, "any", first, last, "•"));
                    targets.add(new Row("spared", deviceClass, "any", first, last, "•"));
                }
            }
            years.forEach(year -> targets.add(new Row("spared", deviceClass, "any", year, year, "•")));
        }
        return targets;
    }

    /** Every number of every view stands in the release that it names, as shown or hidden there. */
    private static void assertViewsShowWhatWasReleased(RegistryClient steward, String firstFile, String secondFile) {
        Map<String, String> second = values(secondFile);
        for (String by : List.of("", "deviceClass", "year", "deviceClass,year")) {
            JsonNode view = steward.get("/api/reports/incidence?audience=outside&by=" + by)
                    .json();
            assertThat(view.required("releaseNumber").intValue()).isEqualTo(2);
            view.required("groups").forEach(group -> {
                String deviceClass = group.at("/level/deviceClass").asString("any");
                String first = group.at("/level/year").asString("2023");
                String last = group.at("/level/year").asString("2025");
                for (String measure : List.of("events", "uses")) {
                    String key = String.join(",", measure, deviceClass, "any", first, last);
                    assertThat(group.required(measure).asString("•"))
                            .as(key)
                            .isEqualTo(second.getOrDefault(key, "absent"));
                }
                boolean hidden = group.required("events").isNull()
                        || group.required("uses").isNull();
                assertThat(group.required("suppressed").booleanValue()).isEqualTo(hidden);
                if (hidden) {
                    assertThat(Stream.of("estimate", "lower", "upper", "upperBoundIfNone"))
                            .allSatisfy(name ->
                                    assertThat(group.required(name).isNull()).isTrue());
                    assertThat(group.required("sentence").stringValue()).doesNotContainPattern("[0-9]");
                }
            });
        }
        JsonNode harm =
                steward.get("/api/reports/harm?audience=outside&by=deviceClass").json();
        harm.required("groups")
                .forEach(group -> group.required("harm").propertyStream().forEach(degree -> {
                    String key = String.join(
                            ",",
                            "events",
                            group.at("/level/deviceClass").stringValue(),
                            degree.getKey(),
                            "2023",
                            "2025");
                    assertThat(degree.getValue().required("events").asString("•"))
                            .as(key)
                            .isEqualTo(second.getOrDefault(key, "absent"));
                }));
        String asOf = "&asOf=" + steward.get("/api/releases/1").json().at("/dataCut/revision");
        assertThat(steward.get("/api/reports/incidence?audience=outside" + asOf)
                        .json()
                        .required("releaseNumber")
                        .intValue())
                .isEqualTo(1);
        assertThat(new ArrayList<>(values(firstFile).keySet())).hasSizeGreaterThan(100);
    }

    private static Map<String, String> values(String file) {
        Map<String, String> values = new LinkedHashMap<>();
        file.lines().filter(line -> !line.startsWith("#")).forEach(line -> {
            String[] cells = line.split(",", -1);
            values.put(String.join(",", List.of(cells).subList(0, 5)), cells[5]);
        });
        return values;
    }
}
