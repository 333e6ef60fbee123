package entrapment.registry.releases;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.Reports;
import entrapment.registry.vocabulary.Period.Resolution;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Releases over HTTP; the registry is shared with other tests, so the figures are whatever they are. */
@RegistryTest
class ReleaseApiTests {

    @Autowired
    private TestNetwork network;

    @Autowired
    private JdbcClient jdbc;

    private TestCentre centre;
    private RegistryClient steward;

    @BeforeEach
    void giveACompleteYear() {
        centre = network.centre();
        steward = network.steward();
        assertThat(centre.submitter()
                        .put(centre.activity("2025-Q1"), "[{\"deviceClass\": \"stent\", \"uses\": 40}]")
                        .status())
                .isEqualTo(201);
    }

    private JsonNode release() {
        Answer answer = steward.post("/api/releases", "{}");
        assertThat(answer.status()).as(answer.body()).isEqualTo(201);
        assertThat(answer.header("Location"))
                .isEqualTo("/api/releases/" + answer.json().required("number"));
        return answer.json();
    }

    @Test
    void keepsWhatItReleases() {
        JsonNode made = release();
        String path = "/api/releases/" + made.required("number");

        assertThat(steward.get(path).json()).isEqualTo(made);
        assertThat(steward.get("/api/releases").json().get(0)).isEqualTo(made);
        assertThat(made.at("/audit/safe").booleanValue()).isTrue();
        assertThat(made.at("/smallestCount").intValue()).isEqualTo(5);
        assertThat(made.required("cautions").size()).isEqualTo(3);
        assertThat(made.at("/notes/0").stringValue())
                .isEqualTo("Cells marked • hold 1 to 4 events or protect such a cell.");
        String csv = steward.get(path + "?format=csv&comments=true").body();
        assertThat(csv).contains("# caution: Retrospective registry data", "# note: Cells marked • hold 1 to 4 events");
        assertThat(csv).as("the audit is not for the outside").doesNotContain("omplementary", "audit");
        assertThat(csv.lines().filter(line -> !line.startsWith("#")).skip(1))
                .hasSize(made.required("figures").size());
        made.required("figures")
                .forEach(figure -> assertThat(figure.required("suppressed").booleanValue())
                        .isEqualTo(figure.required("value").isNull()));
    }

    @Test
    void keepsNoHiddenNumber() {
        int number = release().required("number").intValue();

        assertThat(jdbc.sql("select column_name from information_schema.columns where table_name = 'outside_figure'")
                        .query(String.class)
                        .set())
                .containsExactlyInAnyOrder(
                        "release", "position", "measure", "device_class", "harm", "first_year", "last_year", "value");
        assertThat(jdbc.sql("select count(*) from outside_figure where release = :number and value between 1 and 4")
                        .param("number", number)
                        .query(Long.class)
                        .single())
                .isZero();
    }

    @Test
    void opensToTheStewardAlone() {
        String number = release().required("number").toString();

        for (RegistryClient other : List.of(centre.submitter(), centre.analyst())) {
            assertThat(other.post("/api/releases", "{}").status()).isEqualTo(403);
            for (String path : List.of(
                    "/api/releases",
                    "/api/releases/" + number,
                    "/api/reports/incidence?audience=outside",
                    "/api/reports/retrieval?audience=outside")) {
                assertThat(other.get(path).status()).as(path).isEqualTo(403);
            }
        }
        assertThat(steward.get("/api/releases/0").status()).isEqualTo(404);
        assertThat(steward.get("/api/releases/999999999").status()).isEqualTo(404);
        assertThat(steward.get("/api/releases/" + number + "?audience=outside").status())
                .isEqualTo(422);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "incidence?by=vessel",
                "incidence?by=centre",
                "incidence?by=period",
                "incidence?by=year,deviceClass",
                "incidence?centre=harbour-lab",
                "incidence?from=2024-Q1",
                "incidence?deviceClass=stent",
                "incidence?method=jeffreys",
                "incidence?confidence=0.9",
                "incidence?vessel=lad",
                "incidence?noSuchParameter=1",
                "harm?by=year",
                "harm?by=deviceClass,year",
                "harm?calcification=severe"
            })
    void refusesWhatIsNotOnTheList(String query) {
        Answer answer = steward.get("/api/reports/" + query + "&audience=outside");

        assertThat(answer.status()).isEqualTo(422);
        assertThat(answer.json().at("/errors/0/code").stringValue()).isEqualTo("not-open-outside");
        assertThat(answer.json().required("open").toString())
                .isEqualTo("{\"incidence\":[[],[\"deviceClass\"],[\"year\"],[\"deviceClass\",\"year\"]],"
                        + "\"harm\":[[],[\"deviceClass\"]]}");
    }

    @Test
    void refusesEveryOtherReport(@Autowired Reports questions) {
        Set<String> reports = questions.questions().stream()
                .map(question -> "/api/reports/" + question.name())
                .collect(Collectors.toCollection(TreeSet::new));
        reports.removeAll(Set.of("/api/reports/incidence", "/api/reports/harm"));

        assertThat(reports).hasSizeGreaterThan(7).allSatisfy(report -> {
            Answer answer = steward.get(report + "?audience=outside");
            assertThat(answer.status()).isEqualTo(422);
            assertThat(answer.json().at("/errors/0/code").stringValue()).isEqualTo("not-open-outside");
            assertThat(answer.json().required("open").size()).isEqualTo(2);
        });
    }

    @Test
    void refusesAnAudienceThatThereIsNot() {
        assertThat(steward.get("/api/reports/incidence?audience=everybody")
                        .json()
                        .at("/errors/0/code")
                        .stringValue())
                .isEqualTo("not-a-code");
    }

    @Test
    void refusesAYearThatIsNotOverAndOneThatWasPassed() {
        release();

        assertThat(steward.post("/api/releases", "{\"throughYear\": 2100}")
                        .json()
                        .at("/errors/0/code")
                        .stringValue())
                .isEqualTo("year-not-complete");
        assertThat(steward.post("/api/releases", "{\"throughYear\": 1990}")
                        .json()
                        .at("/errors/0/code")
                        .stringValue())
                .isEqualTo("year-released");
        assertThat(steward.post("/api/releases", "{\"year\": 2024}")
                        .json()
                        .at("/errors/0/code")
                        .stringValue())
                .isEqualTo("unknown-field");
    }

    @Test
    void answersTheSameViewAsJsonAndCsv() {
        release();

        for (String query : List.of("incidence?by=deviceClass,year", "harm?by=deviceClass", "incidence?", "harm?")) {
            String path = "/api/reports/" + query + "&audience=outside";
            JsonNode json = steward.get(path).json();
            List<String> csv =
                    steward.get(path, "Accept", "text/csv").body().lines().toList();
            List<String> header = List.of(csv.get(0).split(",", -1));
            assertThat(header).contains("suppressed", "events");
            assertThat(json.required("audience").stringValue()).isEqualTo("outside");
            assertThat(json.required("cautions").size()).isEqualTo(3);
            List<JsonNode> counts = new ArrayList<>();
            json.required("groups").forEach(group -> {
                if (group.has("harm")) {
                    group.required("harm").forEach(counts::add);
                } else {
                    counts.add(group);
                }
            });
            assertThat(csv).hasSize(counts.size() + 1);
            for (int row = 0; row < counts.size(); row++) {
                String[] cells = csv.get(row + 1).split(",", -1);
                assertThat(cells[header.indexOf("events")])
                        .isEqualTo(counts.get(row).required("events").asString("•"));
                assertThat(cells[header.indexOf("suppressed")])
                        .isEqualTo(counts.get(row).required("suppressed").toString());
            }
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 12})
    void takesAThresholdOf3To11Alone(int wrong) {
        assertThatThrownBy(() -> new Settings(Resolution.QUARTER, false, wrong))
                .hasMessage("registry.smallest-count must be in [3, 11], got " + wrong);
    }
}
