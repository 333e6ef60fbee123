package entrapment.registry.demo;

import de.siegmar.fastcsv.writer.CsvWriter;
import entrapment.registry.demo.DemoTruth.Centre;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import tools.jackson.databind.node.ObjectNode;

/**
 * Makes the invented network of {@code demo-data/}: three years of five hospitals that do not exist, from one seed and
 * the effects planted in {@link DemoTruth}. The same seed gives the same bytes on every machine.
 */
final class DemoNetwork {

    static final long SEED = 4217;

    /** One centre's quarter: how often each pattern was used, and which uses ended in a case. */
    record Quarter(String centre, String period, SortedMap<UsePattern, Integer> uses, List<ObjectNode> cases) {

        List<ObjectNode> casesWith(String deviceClass) {
            return cases.stream()
                    .filter(entrapment ->
                            entrapment.at("/device/deviceClass").stringValue().equals(deviceClass))
                    .toList();
        }
    }

    /** What was made wrong on purpose, so that a report has something to find. */
    record Flaws(Quarter withoutReturn, Quarter miscounted, String miscountedClass) {}

    private final List<Quarter> quarters = new ArrayList<>();
    private final Flaws flaws;

    DemoNetwork(long seed) {
        // Two sources, so that a change to the stories leaves activity and entrapments as they are.
        DemoRandom random = new DemoRandom(seed);
        DemoLesions lesions = new DemoLesions(random);
        DemoCase stories = new DemoCase(new DemoRandom(seed + 1));
        for (Centre centre : DemoTruth.CENTRES) {
            for (String period : DemoTruth.PERIODS) {
                quarters.add(quarter(random, lesions, stories, centre, period));
            }
        }
        flaws = plantFlaws();
    }

    private static Quarter quarter(
            DemoRandom random, DemoLesions lesions, DemoCase stories, Centre centre, String period) {
        Quarter quarter = new Quarter(centre.code(), period, new TreeMap<>(), new ArrayList<>());
        int uses = (int) (centre.usesPerQuarter() * (0.92 + 0.16 * random.uniform()));
        for (int i = 0; i < uses; i++) {
            UsePattern use = lesions.use(centre);
            boolean entrapped = random.chance(DemoTruth.entrapment(centre, period, use));
            UsePattern reported = lesions.reported(centre, period, use);
            quarter.uses().merge(reported, 1, Integer::sum);
            if (entrapped) {
                quarter.cases().add(stories.of(centre.code(), period, reported));
            }
        }
        return quarter;
    }

    /** Spoils two returns; the cases stay as they happened, so no effect planted elsewhere is touched. */
    private Flaws plantFlaws() {
        Quarter withoutReturn = quarters.stream()
                .filter(quarter ->
                        quarter.centre().equals("pellaquine") && quarter.cases().size() == 1)
                .findFirst()
                .orElseThrow();
        withoutReturn.uses().clear();

        String deviceClass = "rotational-burr";
        Quarter miscounted = quarters.stream()
                .filter(quarter -> !quarter.centre().equals(DemoTruth.CHANGE_CENTRE)
                        && quarter.casesWith(deviceClass).size() >= 2)
                .findFirst()
                .orElseThrow();
        UsePattern kept = miscounted.uses().keySet().stream()
                .filter(pattern -> pattern.deviceClass().equals(deviceClass))
                .findFirst()
                .orElseThrow();
        miscounted.uses().keySet().removeIf(pattern -> pattern.deviceClass().equals(deviceClass));
        miscounted.uses().put(kept, 1);
        return new Flaws(withoutReturn, miscounted, deviceClass);
    }

    List<Quarter> quarters() {
        return quarters;
    }

    Flaws flaws() {
        return flaws;
    }

    /** File name to content. */
    Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("centres.csv", centres());
        files.put("activity.csv", activity());
        files.put("cases.ndjson", cases());
        files.put("README.md", DemoReadme.of(this));
        return files;
    }

    private static String centres() {
        StringWriter text = new StringWriter();
        CsvWriter csv = CsvWriter.builder().bufferSize(0).build(text);
        csv.writeRecord("centre", "name");
        DemoTruth.CENTRES.forEach(centre -> csv.writeRecord(centre.code(), centre.name()));
        return text.toString();
    }

    private String activity() {
        StringWriter text = new StringWriter();
        CsvWriter csv = CsvWriter.builder().bufferSize(0).build(text);
        csv.writeRecord(row("centre", "period", UsePattern.COLUMNS, "uses"));
        for (Quarter quarter : quarters) {
            quarter.uses()
                    .forEach((pattern, uses) -> csv.writeRecord(
                            row(quarter.centre(), quarter.period(), pattern.values(), Integer.toString(uses))));
        }
        return text.toString();
    }

    private static List<String> row(String centre, String period, List<String> pattern, String uses) {
        List<String> row = new ArrayList<>();
        row.add(centre);
        row.add(period);
        row.addAll(pattern);
        row.add(uses);
        return row;
    }

    private String cases() {
        StringBuilder lines = new StringBuilder();
        for (Quarter quarter : quarters) {
            quarter.cases()
                    .forEach(entrapment -> lines.append(entrapment.toString()).append('\n'));
        }
        return lines.toString();
    }
}
