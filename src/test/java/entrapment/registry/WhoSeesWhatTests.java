package entrapment.registry;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Calculation;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;

/** Every mapping, asked by everybody about everything: nobody is let in but those who are named here. */
@RegistryTest
class WhoSeesWhatTests {

    /** Who asks, about whose data. */
    private enum Asking {
        NOBODY,
        SUBMITTER_OWN,
        SUBMITTER_OTHER,
        ANALYST_OWN,
        ANALYST_OTHER,
        STEWARD
    }

    /** What each of them, in the order of {@link Asking}, is answered: + open, or the status of the refusal. */
    @SuppressWarnings("ImmutableEnumChecker") // the list is made by List.of
    private enum Right {
        EVERYBODY("+ + + + + +"),
        ANY_KEY("401 + + + + +"),
        READS_OWN("401 + 404 + 404 +"),
        SENDS_OWN("401 + 404 403 404 +"),
        /** Whoever may not send is told so before it is asked about what. */
        SENDS_OWN_BY_FORM("401 + 404 403 403 +"),
        /** An empty form holds none. */
        KEY_IN_THE_FORM("401 401 401 401 401 401"),
        STEWARD_ALONE("401 403 403 403 403 +"),
        PREPARES("401 403 403 + + +"),
        PREPARES_OWN("401 403 404 + 404 +");

        private final List<String> expected;

        Right(String expected) {
            this.expected = List.of(expected.split(" ", -1));
        }
    }

    private static final Map<String, Right> RIGHTS = new TreeMap<>();

    private static void allow(Right right, String... mappings) {
        for (String mapping : mappings) {
            RIGHTS.put(mapping, right);
        }
    }

    static {
        allow(Right.EVERYBODY, "GET /problems/{slug}", "GET /sign-in");
        allow(Right.KEY_IN_THE_FORM, "POST /sign-in");
        allow(Right.ANY_KEY, "GET /");
        allow(
                Right.READS_OWN,
                "GET /questions/{name}?centre={centre}",
                "GET /questions/{name}/figures?centre={centre}",
                "GET /questions/{name}/table?centre={centre}",
                "GET /questions/{name}/slides?centre={centre}");
        allow(
                Right.ANY_KEY,
                "GET /api/centres",
                "GET /api/settings",
                "GET /api/vocabulary",
                "POST /api/calculations/{method}");
        allow(
                Right.READS_OWN,
                "GET /api/centres/{centre}/cases",
                "GET /api/centres/{centre}/cases/{caseKey}",
                "GET /api/centres/{centre}/cases/{caseKey}/versions",
                "GET /api/centres/{centre}/activity",
                "GET /api/centres/{centre}/activity/{period}",
                "GET /api/centres/{centre}/audit",
                "GET /api/reports/between-centres?centre={centre}",
                "GET /api/reports/completeness?centre={centre}",
                "GET /api/reports/harm?centre={centre}",
                "GET /api/reports/incidence?centre={centre}",
                "GET /api/reports/over-time?centre={centre}",
                "GET /api/reports/planning?centre={centre}",
                "GET /api/reports/pooled?centre={centre}",
                "GET /api/reports/retrieval?centre={centre}",
                "GET /api/reports/risk-factors?centre={centre}",
                "GET /api/reports/similar-cases?centre={centre}");
        // -- cases
        allow(Right.SENDS_OWN_BY_FORM, "POST /report-a-case?centre={centre}");
        allow(Right.ANY_KEY, "GET /report-a-case", "GET /cases", "GET /send-data", "GET /send-data/templates/{name}");
        allow(Right.READS_OWN, "GET /cases/{centre}/{caseKey}");
        allow(
                Right.SENDS_OWN,
                "GET /cases/{centre}/{caseKey}/edit",
                "POST /cases/{centre}/{caseKey}/edit",
                "GET /cases/{centre}/{caseKey}/withdraw",
                "POST /cases/{centre}/{caseKey}/withdraw",
                "POST /send-data?centre={centre}",
                "POST /send-data/cases?centre={centre}",
                "POST /send-data/activity?centre={centre}");
        allow(
                Right.SENDS_OWN,
                "PUT /api/centres/{centre}/cases/{caseKey}",
                "DELETE /api/centres/{centre}/cases/{caseKey}",
                "POST /api/centres/{centre}/cases",
                "PUT /api/centres/{centre}/activity/{period}");
        allow(
                Right.STEWARD_ALONE,
                "PUT /api/centres/{centre}",
                "POST /api/centres/{centre}/keys",
                "GET /api/keys",
                "POST /api/keys",
                "DELETE /api/keys/{id}",
                "POST /api/keys/{id}/rotation",
                "GET /api/archive",
                "GET /api/releases",
                "GET /api/reports/between-centres?audience",
                "GET /api/reports/completeness?audience",
                "GET /api/reports/harm?audience",
                "GET /api/reports/incidence?audience",
                "GET /api/reports/over-time?audience",
                "GET /api/reports/planning?audience",
                "GET /api/reports/pooled?audience",
                "GET /api/reports/retrieval?audience",
                "GET /api/reports/risk-factors?audience",
                "GET /api/reports/similar-cases?audience",
                "POST /api/releases",
                "GET /api/releases/{number}",
                "GET /api/audit",
                "GET /api/audit/verification");
        // -- network and methods
        allow(
                Right.STEWARD_ALONE,
                "GET /network",
                "GET /network/archive",
                "GET /network/archive/registry-archive.zip",
                "GET /network/audit",
                "GET /network/audit/verification",
                "GET /network/centres",
                "POST /network/centres",
                "GET /network/centres/{centre}",
                "POST /network/centres/{centre}",
                "GET /network/keys",
                "POST /network/keys",
                "GET /network/keys/new",
                "GET /network/keys/{id}/revocation",
                "POST /network/keys/{id}/revocation",
                "GET /network/keys/{id}/rotation",
                "POST /network/keys/{id}/rotation",
                "GET /network/releases",
                "POST /network/releases",
                "GET /network/releases/proposal",
                "GET /network/releases/{number}",
                "GET /network/releases/{number}/figures.csv",
                "GET /network/settings");
        allow(
                Right.ANY_KEY,
                "GET /methods",
                "GET /methods/figures",
                "GET /methods/format",
                "GET /methods/privacy",
                "GET /methods/rules",
                "GET /methods/statistics",
                "GET /methods/vocabulary");
    }

    // Meetings: an analyst prepares, a submitter reads, and another centre's is not there.
    static {
        allow(Right.ANY_KEY, "GET /api/meetings", "GET /meetings");
        allow(Right.PREPARES, "POST /api/meetings", "POST /meetings");
        allow(
                Right.READS_OWN,
                "GET /meetings/{meeting}",
                "GET /meetings/{meeting}/actions/{action}",
                "GET /meetings/{meeting}/actions.ics",
                "GET /meetings/{meeting}/figures",
                "GET /meetings/{meeting}/slides");
        allow(
                Right.PREPARES_OWN,
                "POST /meetings/{meeting}/plan",
                "POST /meetings/{meeting}/cut",
                "POST /meetings/{meeting}/review/{caseKey}",
                "POST /meetings/{meeting}/review/{caseKey}/rating",
                "POST /meetings/{meeting}/actions",
                "POST /meetings/{meeting}/actions/{action}");
        allow(
                Right.READS_OWN,
                "GET /api/meetings/{meeting}",
                "GET /api/meetings/{meeting}/review/{caseKey}",
                "GET /api/meetings/{meeting}/actions/{action}/effect",
                "GET /api/meetings/{meeting}/actions.ics",
                "GET /api/meetings/{meeting}/slides");
        allow(
                Right.PREPARES_OWN,
                "PUT /api/meetings/{meeting}",
                "POST /api/meetings/{meeting}/freeze",
                "POST /api/meetings/{meeting}/thaw",
                "POST /api/meetings/{meeting}/recut",
                "PUT /api/meetings/{meeting}/review/{caseKey}",
                "POST /api/meetings/{meeting}/review/{caseKey}/ratings",
                "POST /api/meetings/{meeting}/actions",
                "PUT /api/meetings/{meeting}/actions/{action}");
    }

    @Autowired
    private TestNetwork network;

    @Autowired
    @Qualifier("requestMappingHandlerMapping")
    private RequestMappingHandlerMapping mappings;

    @Autowired
    private Reports reports;

    @Test
    void everyMappingIsKnownHere() {
        assertThat(RIGHTS.keySet().stream().map(mapping -> mapping.replace("?centre={centre}", "")))
                .containsExactlyInAnyOrderElementsOf(mappings().keySet());
    }

    /** The mappings, each with the types that it reads; every question's report is one of its own. */
    private Map<String, Set<String>> mappings() {
        Map<String, Set<String>> found = new TreeMap<>();
        mappings.getHandlerMethods().keySet().forEach(mapping -> mapping.getPatternValues().stream()
                .filter(path -> !path.startsWith("/actuator") && !path.equals("/error"))
                .flatMap(path -> path.equals("/api/reports/{name}")
                        ? reports.questions().stream().map(question -> path.replace("{name}", question.name()))
                        : Stream.of(path))
                .forEach(path -> mapping.getMethodsCondition().getMethods().forEach(method -> {
                    String asked = mapping.getParamsCondition().getExpressions().stream()
                            .map(parameter -> "?" + parameter)
                            .collect(joining());
                    Set<String> types = found.computeIfAbsent(method + " " + path + asked, key -> new TreeSet<>());
                    mapping.getConsumesCondition()
                            .getConsumableMediaTypes()
                            .forEach(type -> types.add(type.toString()));
                })));
        return found;
    }

    @Test
    void everybodyIsAnsweredWhatTheirRoleAllowsAndNothingElse() {
        Map<String, Set<String>> types = mappings();
        Map<String, String> wrong = new TreeMap<>();
        Map<Right, Integer> asked = new EnumMap<>(Right.class);
        RIGHTS.forEach((mapping, right) -> {
            Set<String> read = types.getOrDefault(mapping.replace("?centre={centre}", ""), Set.of());
            for (String type : read.isEmpty() ? Set.of("") : read) {
                List<String> answered = answers(mapping, type);
                asked.merge(right, answered.size(), Integer::sum);
                if (!answered.equals(right.expected)) {
                    wrong.put(mapping + " " + type, answered.toString());
                }
            }
        });

        assertThat(wrong).isEmpty();
        assertThat(asked.values().stream().mapToInt(Integer::intValue).sum()).isGreaterThan(200);
    }

    private List<String> answers(String mapping, String type) {
        List<String> answered = new ArrayList<>();
        for (Asking asking : Asking.values()) {
            TestCentre own = centre();
            TestCentre about = asking == Asking.SUBMITTER_OTHER || asking == Asking.ANALYST_OTHER ? centre() : own;
            RegistryClient client =
                    switch (asking) {
                        case NOBODY -> network.nobody();
                        case SUBMITTER_OWN, SUBMITTER_OTHER -> own.submitter();
                        case ANALYST_OWN, ANALYST_OTHER -> own.analyst();
                        case STEWARD -> network.steward();
                    };
            Answer answer = send(client, mapping, type, about);
            boolean closed = Set.of(401, 403, 404).contains(answer.status());
            answered.add(closed ? Integer.toString(answer.status()) : "+");
            if (!about.equals(own)) {
                assertThat(answer.body()).as(mapping).doesNotContain(about.code());
            }
            assertThat(answer.status()).as(mapping).isLessThan(500);
        }
        return answered;
    }

    /** What is sent need not be right: who may send it is asked before it is read. */
    private Answer send(RegistryClient client, String mapping, String type, TestCentre about) {
        String[] parts = mapping.split(" ", 2);
        String path = parts[1].replace("{centre}", about.code())
                .replace("{caseKey}", "who-sees-it")
                .replace("{period}", "2026-Q2")
                .replace("{method}", Calculation.PROPORTION.code())
                .replace("{slug}", "stale")
                .replace("{name}", mapping.contains("templates") ? "cases.csv" : "incidence")
                .replace("{meeting}", mapping.contains("{meeting}") ? meeting(about) : "")
                .replace("{action}", "1")
                .replace("{number}", mapping.contains("{number}") ? release() : "")
                .replace("{id}", mapping.contains("{id}") ? keyToEnd() : "");
        if (!path.startsWith("/api") && parts[0].equals("POST")) {
            // A page's form is sent in a session; that it may come from no other page is shown elsewhere.
            return network.nobody()
                    .answer(
                            type.isEmpty() || type.contains("form")
                                    ? client.atPages().post(path, Map.of())
                                    : client.atPages().post(path, type, "{}"));
        }
        return type.isEmpty()
                ? client.send(parts[0], path, null)
                : client.send(parts[0], path, "{}", "Content-Type", type, "If-Match", "\"1\"");
    }

    private String keyToEnd() {
        return network.steward()
                .post("/api/keys", "{\"role\": \"steward\", \"label\": \"to be ended\"}")
                .json()
                .required("id")
                .asString();
    }

    /** A meeting that looks at the centre's case and has agreed an action. */
    private static String meeting(TestCentre about) {
        String path = about.analyst().post("/api/meetings", """
                        {"kind": "quality", "from": "2026-Q2", "to": "2026-Q2",
                         "cases": {"rule": "random-sample", "size": 1}}""").header("Location");
        about.analyst().post(path + "/actions", """
                        {"what": "Drill", "owner": "training-lead", "dueOn": "2099-06-30",
                         "measure": {"report": "incidence"}}""");
        return path.substring(path.lastIndexOf('/') + 1);
    }

    private String release() {
        return network.steward()
                .post("/api/releases", "{}")
                .json()
                .required("number")
                .asString();
    }

    private TestCentre centre() {
        TestCentre centre = network.centre();
        centre.submitter()
                .put(centre.cases() + "/who-sees-it", CaseSamples.aCase().json());
        for (String period : List.of("2025-Q4", "2026-Q2")) {
            centre.submitter().put(centre.activity(period), "[{\"deviceClass\": \"balloon\", \"uses\": 300}]");
        }
        return centre;
    }
}
