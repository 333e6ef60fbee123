package entrapment.registry.startup;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.cases.BulkOutcome;
import entrapment.registry.cases.Cases;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Rows;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.incidence.IncidenceQuery;
import entrapment.registry.reports.incidence.IncidenceQuestion;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.vocabulary.Period.Resolution;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.context.annotation.Profile;
import org.springframework.core.annotation.Order;
import org.springframework.core.env.Environment;
import org.springframework.core.io.ClassPathResource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * Profile {@code demo}: fills an empty registry with the invented network of demo-data, through the same intake as
 * anyone's data, and prints where to look and the first report.
 */
@Component
@Profile("demo")
@Order(2)
class DemoNetworkLoader implements ApplicationRunner {

    private static final Cases.BulkMode ALL_OR_NOTHING = new Cases.BulkMode(false, false);

    private final Centres centres;
    private final Cases cases;
    private final Activity activity;
    private final Reports reports;
    private final IncidenceQuestion incidence;
    private final AccessKeys keys;
    private final JsonMapper json;
    private final TransactionTemplate transaction;
    private final Environment environment;
    private final Settings settings;

    DemoNetworkLoader(
            Centres centres,
            Cases cases,
            Activity activity,
            Reports reports,
            IncidenceQuestion incidence,
            AccessKeys keys,
            JsonMapper json,
            TransactionTemplate transaction,
            Environment environment,
            Settings settings) {
        this.centres = centres;
        this.cases = cases;
        this.activity = activity;
        this.reports = reports;
        this.incidence = incidence;
        this.keys = keys;
        this.json = json;
        this.transaction = transaction;
        this.environment = environment;
        this.settings = settings;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        Viewer steward = keys.steward().orElseThrow();
        if (centres.list(steward).isEmpty()) {
            transaction.executeWithoutResult(status -> load(steward));
        }
        tell(steward);
    }

    /** All of it or none, so that a first start that was broken off is made up for by the second. */
    private void load(Viewer steward) {
        if (settings.periodResolution() != Resolution.QUARTER) {
            throw new IllegalStateException(
                    "The demo network counts by quarter: profile demo needs registry.period-resolution=quarter.");
        }
        try {
            loadCentres(steward);
            loadReturns(steward);
            loadCases(steward);
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    private void loadCentres(Viewer steward) throws IOException {
        List<CsvColumn> columns = List.of(
                new CsvColumn("centre", "/centre", CsvColumn.Kind.TEXT),
                new CsvColumn("name", "/name", CsvColumn.Kind.TEXT));
        try (InputStream file = file("centres.csv")) {
            Rows.csv(file, columns, row -> {
                var centre = row.tree().orRefuse();
                centres.put(
                        centre.required("centre").asString(),
                        centre.required("name").asString(),
                        steward);
            });
        }
    }

    /** The file holds every return; each centre and period becomes the CSV that a centre would send. */
    private void loadReturns(Viewer steward) throws IOException {
        List<String> lines = lines("activity.csv");
        Map<String, StringBuilder> returns = new TreeMap<>();
        String header = lines.get(0).split(",", 3)[2];
        for (String line : lines.subList(1, lines.size())) {
            String[] parts = line.split(",", 3);
            returns.computeIfAbsent(parts[0] + "," + parts[1], key -> new StringBuilder(header).append('\n'))
                    .append(parts[2])
                    .append('\n');
        }
        returns.forEach((key, csv) -> {
            String[] parts = key.split(",", 2);
            activity.submit(
                    parts[0], activity.readCsv(stream(csv), parts[1]).value().orElseThrow(), steward);
        });
    }

    /** The file holds every case; each centre's become the NDJSON that it would send. */
    private void loadCases(Viewer steward) throws IOException {
        Map<String, StringBuilder> byCentre = new TreeMap<>();
        for (String line : lines("cases.ndjson")) {
            ObjectNode entrapmentCase = (ObjectNode) json.readTree(line);
            String centre = entrapmentCase.remove("centre").asString();
            byCentre.computeIfAbsent(centre, key -> new StringBuilder())
                    .append(entrapmentCase)
                    .append('\n');
        }
        byCentre.forEach((centre, ndjson) -> {
            BulkOutcome outcome = cases.submitMany(centre, Cases.rows(true, stream(ndjson)), ALL_OR_NOTHING, steward);
            if (!outcome.stored()) {
                throw new IllegalStateException("the demo network was refused: " + outcome.refusedRows());
            }
        });
    }

    private void tell(Viewer steward) {
        String address = "http://localhost:" + environment.getProperty("local.server.port", "8080");
        String home = environment.getProperty("registry.home", "./data");
        IncidenceQuery query = IncidenceQuery.of(ReportScope.of(steward), GroupBy.DEVICE_CLASS);
        StartupConsole.print(
                "",
                "The demo network is invented; nothing in it describes a real hospital.",
                "Where to look:  curl -H \"Authorization: Bearer $(cat " + home + "/steward.key)\" \\",
                "                  '" + address + "/api/reports/incidence?by=deviceClass'",
                "");
        StartupConsole.print(reports.ask(incidence, query).asText().toArray(String[]::new));
        StartupConsole.print("");
    }

    private static List<String> lines(String name) throws IOException {
        try (InputStream file = file(name)) {
            return new String(file.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        }
    }

    private static InputStream file(String name) throws IOException {
        return new ClassPathResource("demo-data/" + name).getInputStream();
    }

    private static InputStream stream(CharSequence text) {
        return new ByteArrayInputStream(text.toString().getBytes(StandardCharsets.UTF_8));
    }
}
