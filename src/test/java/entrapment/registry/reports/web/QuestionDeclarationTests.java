package entrapment.registry.reports.web;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.access.Centre;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.Reading;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.reports.question.Question;
import entrapment.registry.vocabulary.Period;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.node.ObjectNode;

/** What follows from the declaration of a question holds for every question there is. */
@RegistryTest
class QuestionDeclarationTests {

    private static final Viewer STEWARD = new Viewer("key", Role.STEWARD, null);
    private static final List<Centre> CENTRES = List.of(new Centre("north", "North", Instant.EPOCH));
    private static final List<Period> PERIODS = List.of(new Period(2026, 2));

    @Autowired
    private Reports reports;

    @Autowired
    private TestNetwork network;

    private static List<QuestionForm.Control> controls(Question<?, ?, ?> question) {
        QuestionForm form = QuestionForm.of(question, Map.of(), STEWARD, CENTRES, PERIODS);
        return Stream.concat(form.main().stream(), form.more().stream()).toList();
    }

    @Test
    void everyChoiceOfEveryFormIsAcceptedByItsQuery() {
        assertThat(reports.questions()).isNotEmpty().allSatisfy(question -> {
            for (QuestionForm.Control control : controls(question)) {
                for (QuestionForm.Option option : control.options()) {
                    assertThat(question.read(Map.of(control.name(), List.of(option.value())), STEWARD))
                            .as("%s of %s: %s", control.name(), question.name(), option.value())
                            .isInstanceOf(Reading.Valid.class);
                }
            }
        });
    }

    @Test
    void everyParameterStandsOnTheFormOfItsQuestionOnce() {
        assertThat(reports.questions()).isNotEmpty().allSatisfy(question -> assertThat(controls(question))
                .extracting(QuestionForm.Control::name)
                .containsExactlyInAnyOrderElementsOf(
                        question.parameters().stream().map(Parameter::name).toList()));
    }

    @Test
    void everyTextOfAFormIsThere() {
        for (Question<?, ?, ?> question : reports.questions()) {
            assertThat(network.steward()
                            .atPages()
                            .get("/questions/" + question.name())
                            .body())
                    .as(question.name())
                    .doesNotContain("??");
        }
    }

    @Test
    void everyQuestionCanBeReachedFromHomeByLinks() {
        String home = network.steward().atPages().get("/").body();
        Set<String> linked = Pattern.compile("href=\"/questions/([a-z-]+)")
                .matcher(home)
                .results()
                .map(link -> link.group(1))
                .collect(Collectors.toCollection(TreeSet::new));

        assertThat(linked)
                .containsExactlyInAnyOrderElementsOf(
                        reports.questions().stream().map(Question::name).toList());
    }

    /** A level that is printed and used nowhere would let nothing but itself change. */
    @Test
    void everyQuestionUsesTheLevelOfConfidenceThatItPrints() {
        List<TestCentre> centres = Stream.generate(network::centre).limit(5).toList();
        centres.forEach(QuestionDeclarationTests::fill);
        RegistryClient steward = network.steward();

        assertThat(reports.questions()).isNotEmpty().allSatisfy(question -> {
            // A typical centre needs five of them.
            String whose = question.name().equals("pooled")
                    ? centres.stream().map(TestCentre::code).collect(Collectors.joining(","))
                    : centres.get(0).code();
            String address = "/api/reports/" + question.name() + "?centre=" + whose + "&confidence=";

            assertThat(withoutLevel(steward, address + "0.8")).isNotEqualTo(withoutLevel(steward, address + "0.99"));
        });
    }

    private static ObjectNode withoutLevel(RegistryClient client, String address) {
        ObjectNode answer = (ObjectNode) client.get(address).json();
        assertThat(answer.has("confidence")).isTrue();
        return answer.without("confidence");
    }

    /** Two years with a case of every quarter and two of the first, of a hundred uses each. */
    private static void fill(TestCentre centre) {
        List<String> periods = IntStream.range(0, 8)
                .mapToObj(quarter -> (2024 + quarter / 4) + "-Q" + (1 + quarter % 4))
                .toList();
        for (String period : periods) {
            assertThat(centre.submitter().put(centre.activity(period), """
                            [{"deviceClass": "balloon", "calcification": "severe", "uses": 60},
                             {"deviceClass": "balloon", "calcification": "mild", "uses": 40}]""").status())
                    .isEqualTo(201);
        }
        String cases = IntStream.range(0, 16)
                .mapToObj(number -> """
                        {"caseKey": "LEVEL-%s", "period": "%s", "device": {"deviceClass": "balloon"},\
                         "lesion": {"calcification": "%s"}, "event": {"haemodynamics": "stable"},\
                         "attempts": [{"technique": "snare", "result": "released"}],\
                         "outcome": {"release": "intact", "harm": "none"}}""".formatted(
                                (char) ('A' + number), periods.get(number / 2), number % 3 == 0 ? "mild" : "severe"))
                .collect(Collectors.joining("\n"));
        assertThat(centre.submitter()
                        .post(centre.cases(), "application/x-ndjson", cases)
                        .status())
                .isEqualTo(200);
    }
}
