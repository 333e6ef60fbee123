package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.OpenApiFile.Example;
import entrapment.registry.OpenApiFile.Operation;
import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.access.Role;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.intake.Problem;
import entrapment.registry.meetings.ActionStatus;
import entrapment.registry.meetings.ChoiceRule;
import entrapment.registry.meetings.FactorType;
import entrapment.registry.meetings.Measure;
import entrapment.registry.meetings.MeetingKind;
import entrapment.registry.meetings.OwnerRole;
import entrapment.registry.meetings.Preventability;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.Parameter;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.ChartSignal;
import entrapment.registry.stats.Direction;
import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.FunnelAnalysis;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.NoteCode;
import entrapment.registry.stats.Separation;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.web.servlet.mvc.method.RequestMappingInfo;
import org.springframework.web.servlet.mvc.method.annotation.RequestMappingHandlerMapping;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Holds openapi.yaml and the service against each other, in both directions. */
@RegistryTest
class OpenApiTests {

    private static final OpenApiFile FILE = OpenApiFile.read();
    private static final AtomicInteger NEXT = new AtomicInteger();

    /** What is another in every registry. */
    private static final Set<String> VARYING = Set.of(
            "centre",
            "caseKey",
            "revision",
            "code",
            "id",
            "key",
            "label",
            "role",
            "expiresAt",
            "number",
            "madeAt",
            "meeting",
            "createdAt",
            "changedAt",
            "dataCut",
            "years",
            "audit",
            "figures",
            "notes");

    @Autowired
    private TestNetwork network;

    @Autowired
    private Reports reports;

    @Autowired
    @Qualifier("requestMappingHandlerMapping")
    private RequestMappingHandlerMapping mappings;

    @Test
    void namesTheVersionOfTheService(@Value("${info.version}") String version) {
        assertThat(FILE.at("/info/version").stringValue()).isEqualTo(version);
    }

    @Test
    void hasEveryMappingWithTheTypesItReadsAndNoOther() {
        Set<String> mapped = new TreeSet<>();
        mappings.getHandlerMethods().keySet().forEach(mapping -> mapped.addAll(lines(mapping)));

        Set<String> documented = new TreeSet<>();
        operations()
                .filter(operation -> !operation.path().startsWith("/actuator"))
                .forEach(operation -> documented.addAll(lines(
                        operation.method(), operation.path(), operation.bodies().keySet())));

        assertThat(documented).isEqualTo(mapped);
    }

    /** One line for each path, method and type; the file has a path for each calculation and each question. */
    private Set<String> lines(RequestMappingInfo mapping) {
        Set<String> types = mapping.getConsumesCondition().getConsumableMediaTypes().stream()
                .map(Object::toString)
                .collect(Collectors.toSet());
        Set<String> lines = new TreeSet<>();
        mapping.getPatternValues().stream()
                .filter(path -> path.startsWith("/api") || path.startsWith("/problems"))
                .flatMap(path -> path.endsWith("/calculations/{method}")
                        ? Stream.of(Calculation.values()).map(each -> path.replace("{method}", each.code()))
                        : path.endsWith("/reports/{name}")
                                ? reports.questions().stream().map(each -> path.replace("{name}", each.name()))
                                : Stream.of(path))
                .forEach(path -> mapping.getMethodsCondition()
                        .getMethods()
                        .forEach(method -> lines.addAll(lines(method.name(), path, types))));
        return lines;
    }

    private static Set<String> lines(String method, String path, Collection<String> types) {
        return types.isEmpty()
                ? Set.of(method + " " + path)
                : types.stream().map(type -> method + " " + path + " " + type).collect(Collectors.toSet());
    }

    @ParameterizedTest
    @MethodSource("operations")
    void showsAnExampleOfAllThatIsSentAndAnswered(Operation operation) {
        assertThat(operation.bodies()).allSatisfy((type, body) -> assertThat(FILE.examples(type, body))
                .isNotEmpty());
        assertThat(operation.answers()).allSatisfy((type, answer) -> assertThat(FILE.examples(type, answer))
                .isNotEmpty());
    }

    @Test
    void everyExampleFitsItsSchema() {
        assertThat(FILE.examples()).hasSizeGreaterThan(100).allSatisfy(example -> assertThat(
                        FILE.mismatches(example.type(), example.described(), example.text()))
                .as(example.name())
                .isEmpty());
    }

    @Test
    void seesWhatDoesNotFit() {
        JsonNode stored = FILE.at("/paths/~1api~1centres~1{centre}~1cases~1{caseKey}/get/responses/200/content")
                .path("application/json");
        JsonNode many = FILE.at("/paths/~1api~1centres~1{centre}~1cases/post/requestBody/content");
        ObjectNode fitting = (ObjectNode) FILE.at("/components/examples/burrFreedStored/value");

        assertThat(FILE.mismatches("application/json", stored, fitting.toString()))
                .isEmpty();
        assertThat(Stream.of(
                        fitting.deepCopy().put("surplus", 1),
                        fitting.deepCopy().without("queries"),
                        fitting.deepCopy().put("period", "2026-06"),
                        fitting.deepCopy().put("withdrawn", "regretted"),
                        fitting.deepCopy().set("patient", fitting.objectNode().put("sex", "female")),
                        fitting.deepCopy().set("outcome", fitting.objectNode().put("harm", "great"))))
                .allSatisfy(wrong -> assertThat(FILE.mismatches("application/json", stored, wrong.toString()))
                        .isNotEmpty());
        assertThat(FILE.mismatches("application/x-ndjson", many.path("application/x-ndjson"), "{}\n"))
                .isNotEmpty();
        assertThat(FILE.mismatches("text/csv", many.path("text/csv"), "caseKey,attempt12Result,attempt13Result\n"))
                .containsExactly("attempt13Result");
    }

    /**
     * One request of the file.
     *
     * @param body null where none is sent
     */
    record Exchange(Operation operation, @Nullable Example body) {

        @Override
        public String toString() {
            return operation + (body == null ? "" : " " + body.type() + " " + body.name());
        }
    }

    @ParameterizedTest
    @MethodSource("exchanges")
    void answersAsTheExampleSays(Exchange exchange) {
        Operation operation = exchange.operation();
        TestCentre centre = centreFor(operation);

        Answer answer = send(operation, network.steward(), address(operation, centre), exchange.body());

        assertThat(answer.status()).isBetween(200, 299);
        assertThat(undocumented(operation, answer)).isEmpty();
        Example body = exchange.body();
        if (body != null) {
            Map<String, JsonNode> shown = shown(operation, body.name());
            assertThat(shown).containsOnlyKeys(Integer.toString(answer.status()));
            assertThat(lasting(answer.json()))
                    .isEqualTo(lasting(shown.values().iterator().next()));
        }
    }

    /** The answers that are shown under the name of a request, by status. */
    private static Map<String, JsonNode> shown(Operation operation, String name) {
        return operation.responses().entrySet().stream()
                .filter(response -> response.getValue()
                        .at("/content/application~1json/examples")
                        .has(name))
                .collect(
                        Collectors.toMap(
                                Map.Entry::getKey, response -> FILE
                                        .examples(
                                                "application/json",
                                                response.getValue().at("/content/application~1json"))
                                        .stream()
                                        .filter(example -> example.name().equals(name))
                                        .findFirst()
                                        .orElseThrow()
                                        .value()));
    }

    private static JsonNode lasting(JsonNode answer) {
        return answer instanceof ObjectNode object ? object.deepCopy().without(VARYING) : answer;
    }

    @ParameterizedTest
    @MethodSource("operations")
    void refusesAsDocumented(Operation operation) {
        TestCentre centre = centreFor(operation);
        String address = address(operation, centre);
        RegistryClient steward = network.steward();
        Example body = exchanges(operation).findFirst().orElseThrow().body();

        if (operation.path().startsWith("/api/")) {
            refused(operation, 401, send(operation, network.nobody(), address, body));
        }
        if (operation.documents(406)) {
            refused(operation, 406, send(operation, steward, address, body, "Accept", "image/png"));
        }
        if (body != null) {
            refused(operation, 415, steward.send(operation.method(), address, "x", "Content-Type", "text/plain"));
        }
        for (String type : operation.bodies().keySet()) {
            String unknown = type.equals("text/csv") ? "noSuchColumn\n1\n" : "{\"noSuchField\": 1}";
            refused(operation, 422, steward.send(operation.method(), address, unknown, "Content-Type", type));
            if (!type.equals("application/x-ndjson")) {
                String broken = type.equals("text/csv") ? "" : "{";
                refused(operation, 400, steward.send(operation.method(), address, broken, "Content-Type", type));
            }
        }
        if (operation.method().equals("GET") && operation.documents(422)) {
            refused(operation, 422, steward.get(address + "?noSuchParameter=1"));
        }
    }

    @ParameterizedTest
    @MethodSource("operations")
    void opensToAnAnalystAndToOtherCentresOnlyWhatIsDocumented(Operation operation) {
        TestCentre centre = centreFor(operation);
        Example body = exchanges(operation).findFirst().orElseThrow().body();
        String address = address(operation, centre);

        Answer analyst = send(operation, centre.analyst(), address, body);
        Answer other = send(operation, network.centre().submitter(), address, body);
        boolean ofMeetings = operation.path().startsWith("/api/meetings");
        RegistryClient reader = ofMeetings ? centre.submitter() : centre.analyst();
        boolean closed = analyst.status() == 403
                || send(operation, reader, address, body).status() == 403;

        assertThat(closed).isEqualTo(operation.documents(403));
        assertThat(undocumented(operation, analyst)).isEmpty();
        assertThat(undocumented(operation, other)).isEmpty();
        if (operation.path().contains("{centre}")) {
            assertThat(other.status()).isIn(403, 404);
        }
    }

    private static void refused(Operation operation, int status, Answer answer) {
        assertThat(answer.status()).isEqualTo(status);
        assertThat(operation.documents(status)).as("documents " + status).isTrue();
        assertThat(undocumented(operation, answer)).isEmpty();
    }

    @Test
    void hidesWhatIsNotThereAsDocumented() {
        RegistryClient steward = network.steward();

        refused(operation("DELETE", "/api/keys/{id}"), 404, steward.send("DELETE", "/api/keys/none", null));
        refused(operation("GET", "/problems/{slug}"), 404, steward.get("/problems/none"));
        operations()
                .filter(operation -> operation.path().startsWith("/api/reports/"))
                .forEach(report -> refused(report, 404, steward.get(report.path() + "?centre=none")));
    }

    @ParameterizedTest
    @MethodSource("questions")
    void hasEveryParameterAndNoOther(Operation operation) {
        String type = operation.bodies().keySet().stream().findFirst().orElse("text/plain");
        String address = address(operation, network.centre()) + "?noSuchParameter=1";

        JsonNode refusal = network.steward()
                .send(operation.method(), address, null, "Content-Type", type)
                .json();

        String known = refusal.at("/errors/0/detail").stringValue().replaceFirst(".*they may be ", "");
        Set<String> read = new TreeSet<>(List.of(known.split(", ", -1)));
        if (operation.path().startsWith("/api/reports/")) {
            read.addAll(Set.of("format", "comments", "theme", "audience"));
        }
        assertThat(FILE.queryParameters(operation)).isEqualTo(read);
    }

    /** The operations that have parameters in their URL. */
    static Stream<Operation> questions() {
        return operations().filter(operation -> !FILE.queryParameters(operation).isEmpty());
    }

    @Test
    void guardsVersionsAsDocumented() {
        TestCentre centre = network.centre();
        RegistryClient submitter = centre.submitter();
        Operation put = operation("PUT", "/api/centres/{centre}/cases/{caseKey}");
        Operation get = operation("GET", put.path());
        String address = address(put, centre);
        List<Example> cases = FILE.examples(
                "application/json", Objects.requireNonNull(put.bodies().get("application/json")));
        String other = cases.get(1).text();
        send(put, submitter, address, cases.get(0));

        refused(put, 428, submitter.put(address, other));
        refused(put, 412, submitter.put(address, other, "If-Match", "\"2\""));
        Answer changed = submitter.put(address, other, "If-Match", "\"1\"");
        Answer known = submitter.get(address, "If-None-Match", "\"2\"");

        assertThat(changed.status()).isEqualTo(200);
        assertThat(undocumented(put, changed)).isEmpty();
        assertThat(known.status()).isEqualTo(304);
        assertThat(undocumented(get, known)).isEmpty();
    }

    @Test
    void refusesBodiesThatAreTooLargeAsDocumented() {
        TestCentre centre = network.centre();
        Operation put = operation("PUT", "/api/centres/{centre}/cases/{caseKey}");

        refused(put, 413, centre.submitter().put(address(put, centre), " ".repeat(65_537)));
        assertThat(operations().filter(operation -> !operation.bodies().isEmpty()))
                .allSatisfy(operation -> assertThat(operation.documents(413)).isTrue());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "incidence?",
                "incidence?by=deviceClass,deviceSizeMm&method=jeffreys&confidence=0.9",
                "incidence?by=vessel,calcification,tortuosity,totalOcclusion,stentLayers,guideFrench,operatorStage",
                "incidence?by=centre,period,year&from=2020-Q1&to=2026-Q2&method=clopper-pearson",
                "incidence?method=wilson-continuity&deviceClass=filter&deviceSizeMm=1.25,unknown&vessel=lad",
                "incidence?asOf=0",
                "retrieval?",
                "retrieval?by=deviceClass,haemodynamics,timiFlow,guideFrench",
                "retrieval?deviceClass=other",
                "retrieval?asOf=0",
                "risk-factors?",
                "risk-factors?factors=calcification&model=crude&confidence=0.9",
                "risk-factors?factors=vessel&vessel=graft",
                "risk-factors?asOf=0",
                "risk-factors?model=stratified&confidence=0.9",
                "risk-factors?model=stratified&stratifyBy=centre,deviceClass&factors=calcification,deviceClass",
                "risk-factors?model=stratified&vessel=graft",
                "risk-factors?model=stratified&asOf=0",
                "risk-factors?model=adjusted&confidence=0.9",
                "risk-factors?model=adjusted&factors=calcification&deviceClass=rotational-burr",
                "risk-factors?model=adjusted&asOf=0",
                "over-time?",
                "over-time?baseline=0.02&deviceClass=rotational-burr&from=2020-Q1&confidence=0.9",
                "over-time?baselineFrom=2025-Q1&baselineTo=2026-Q1",
                "over-time?chart=between-events",
                "over-time?chart=cusum&baseline=0.01&oddsRatio=1.5&threshold=2.5",
                "over-time?asOf=0",
                "between-centres?",
                "between-centres?adjustFor=deviceClass,calcification&confidence=0.9",
                "between-centres?vessel=graft",
                "between-centres?asOf=0",
                "pooled?",
                "pooled?by=deviceClass,deviceSizeMm&from=2020-Q1&confidence=0.9",
                "pooled?vessel=graft",
                "pooled?asOf=0",
                "planning?",
                "planning?by=deviceClass,calcification&halfWidth=5&power=0.9&confidence=0.9",
                "planning?vessel=graft",
                "planning?asOf=0",
                "harm?",
                "harm?by=deviceClass,centre,year&from=2020-Q1&confidence=0.9",
                "harm?vessel=graft",
                "harm?asOf=0",
                "completeness?",
                "completeness?by=period&deviceClass=rotational-burr&to=2026-Q2",
                "completeness?asOf=0",
                "similar-cases?",
                "similar-cases?mechanism=passed-beyond-lesion&phase=final-pass&deviceSizeMm=1.25",
                "similar-cases?vessel=graft&access=other&release=partial",
                "similar-cases?asOf=0"
            })
    void answersEveryReportAsDocumented(String query) {
        TestCentre centre = centreWithFigures();
        Operation report = operation("GET", "/api/reports/" + query.substring(0, query.indexOf('?')));

        for (RegistryClient viewer : List.of(centre.submitter(), centre.analyst(), network.steward())) {
            Answer json = viewer.get("/api/reports/" + query);
            Answer csv = viewer.get("/api/reports/" + query + "&format=csv");
            Answer commented = viewer.get("/api/reports/" + query + "&comments=true", "Accept", "text/csv");

            assertThat(json.status()).isEqualTo(200);
            assertThat(undocumented(report, json)).isEmpty();
            assertThat(undocumented(report, csv)).isEmpty();
            assertThat(undocumented(report, commented)).isEmpty();
            assertThat(OpenApiFile.columns(csv.body())).isEqualTo(columns(report, json.json()));
        }
    }

    /** What a form can choose is what the file lists, and the other way around. */
    @Test
    void documentsTheParametersOfEachQuestionAsItDeclaresThem() {
        assertThat(reports.questions()).isNotEmpty().allSatisfy(question -> {
            Operation report = operation("GET", "/api/reports/" + question.name());
            Map<String, List<String>> documented = FILE.choices(report);
            documented.keySet().removeAll(List.of("audience", "format", "theme", "comments"));
            Map<String, List<String>> declared = new TreeMap<>();
            question.parameters()
                    .forEach(parameter -> declared.put(
                            parameter.name(),
                            parameter.control() == Parameter.Control.NUMBER
                                    ? List.of()
                                    : parameter.choices().stream()
                                            .map(Parameter.Choice::code)
                                            .toList()));

            assertThat(documented).as(question.name()).isEqualTo(declared);
        });
    }

    /** Every case and return of the file, in quarters that belong together and in one that does not. */
    private TestCentre centreWithFigures() {
        TestCentre centre = network.centre();
        Operation sendCase = operation("PUT", "/api/centres/{centre}/cases/{caseKey}");
        Operation sendReturn = operation("PUT", "/api/centres/{centre}/activity/{period}");
        exchanges(sendCase)
                .forEach(each -> send(
                        sendCase,
                        centre.submitter(),
                        centre.cases() + "/OPENAPI-" + NEXT.incrementAndGet(),
                        each.body()));
        Example uses = exchanges(sendReturn).findFirst().orElseThrow().body();
        for (String address : List.of(address(sendReturn, centre), centre.activity("2026-Q2"))) {
            assertThat(send(sendReturn, centre.submitter(), address, uses).status())
                    .isEqualTo(201);
        }
        assertThat(centre.submitter()
                        .get(centre.cases())
                        .json()
                        .required("total")
                        .intValue())
                .isGreaterThan(2);
        return centre;
    }

    /**
     * What the report is split by stands in front, except behind the technique and where it is among the columns described;
     * factors are rows, not columns.
     */
    private static List<String> columns(Operation report, JsonNode answer) {
        List<String> columns = new ArrayList<>(
                OpenApiFile.columns(Objects.requireNonNull(report.answers().get("text/csv")), answer));
        if (!columns.get(0).equals("factor")) {
            List<String> by = answer.required("by")
                    .valueStream()
                    .map(JsonNode::stringValue)
                    .filter(each -> !columns.contains(each))
                    .toList();
            columns.addAll(columns.get(0).equals("technique") ? 1 : 0, by);
        }
        return columns;
    }

    @Test
    void answersTheListOfCasesToEveryFilterThatIsDocumented() {
        Operation list = operation("GET", "/api/centres/{centre}/cases");
        TestCentre centre = centreFor(list);
        JsonNode stored = centre.submitter().get(centre.cases()).json().at("/cases/0");

        String filters = Field.coded().stream()
                .map(Field::code)
                .filter(field -> !Set.of("technique", "result", "enablers", "complications")
                        .contains(field))
                .map(field -> field + "=" + stored.findValue(field).asString("1"))
                .collect(Collectors.joining("&", "?page=1&size=1&period=2026-Q2&deviceSizeMm=1.25&", ""));
        Answer answer = centre.submitter().get(centre.cases() + filters);

        assertThat(undocumented(list, answer)).isEmpty();
        assertThat(answer.json().required("total").intValue()).isEqualTo(1);
    }

    @ParameterizedTest
    @EnumSource(Problem.class)
    void explainsEveryProblem(Problem problem) {
        String type = "/problems/" + problem.slug();
        List<JsonNode> examples = FILE.at("/components/examples")
                .valueStream()
                .map(example -> example.get("value"))
                .filter(value -> value.path("type").asString("").equals(type))
                .toList();

        assertThat(FILE.at("/info/description").stringValue())
                .contains("| `%s` | %d | %s |\n".formatted(type, problem.status(), problem.title()));
        assertThat(examples).isNotEmpty().allSatisfy(example -> {
            assertThat(example.required("status").intValue()).isEqualTo(problem.status());
            assertThat(example.required("title").stringValue()).isEqualTo(problem.title());
            assertThat(example.required("remedy").stringValue()).isEqualTo(problem.remedy());
        });
    }

    @ParameterizedTest
    @MethodSource("fields")
    void listsTheCodesOfTheVocabularyWhereverTheFieldStands(String field, List<String> codes) {
        assertThat(FILE.codesOf(field)).isNotEmpty().allSatisfy(listed -> assertThat(listed)
                .isEqualTo(codes));
    }

    static Stream<Object[]> fields() {
        return Field.coded().stream().map(field -> new Object[] {field.code(), codes(field.codes())});
    }

    @Test
    void listsEveryOtherClosedListAsTheServiceHasIt() {
        List<String> factors = Stream.of(Factor.values()).map(Factor::code).toList();

        assertThat(FILE.codes("CodedField"))
                .isEqualTo(Field.coded().stream().map(Field::code).toList());
        assertThat(FILE.codes("Role")).isEqualTo(codes(List.of(Role.values())));
        assertThat(FILE.codes("WithdrawalReason")).isEqualTo(codes(List.of(Withdrawal.values())));
        assertThat(FILE.codes("Factor")).isEqualTo(factors);
        assertThat(FILE.codes("RetrievalSplit"))
                .isEqualTo(Stream.of(RetrievalSplit.values())
                        .map(RetrievalSplit::code)
                        .toList());
        assertThat(FILE.codes("IntervalMethod"))
                .isEqualTo(Stream.of(IntervalMethod.values())
                        .map(IntervalMethod::code)
                        .toList());
        assertThat(FILE.codes("MeetingKind")).isEqualTo(codes(List.of(MeetingKind.values())));
        assertThat(FILE.codes("CaseRule")).isEqualTo(codes(List.of(ChoiceRule.values())));
        assertThat(FILE.codes("FactorType")).isEqualTo(codes(List.of(FactorType.values())));
        assertThat(FILE.codes("OwnerRole")).isEqualTo(codes(List.of(OwnerRole.values())));
        assertThat(FILE.codes("ActionStatus")).isEqualTo(codes(List.of(ActionStatus.values())));
        assertThat(FILE.codes("Preventability")).isEqualTo(codes(List.of(Preventability.values())));
        assertThat(FILE.codes("MeasuredReport"))
                .isEqualTo(Stream.of(Measure.Reported.values())
                        .map(Measure.Reported::code)
                        .toList());
        assertThat(FILE.codes("RowStatus")).isEqualTo(words(DiscordanceAnalysis.Status.values()));
        assertThat(FILE.codes("ChartSignal")).isEqualTo(words(ChartSignal.values()));
        assertThat(FILE.codes("FunnelPosition")).isEqualTo(words(FunnelAnalysis.Position.values()));
        assertThat(FILE.codes("Separation")).isEqualTo(words(Separation.values()));
        assertThat(FILE.codes("Direction")).isEqualTo(words(Direction.values()));
        assertThat(FILE.at("/components/schemas/NotesWithCodes/items/pattern").stringValue())
                .isEqualTo(
                        Stream.of(NoteCode.values()).map(Enum::name).collect(Collectors.joining("|", "\\((", ")\\)$")));
        assertThat(network.steward()
                        .get("/api/reports/incidence?by=none")
                        .json()
                        .at("/errors/0/detail")
                        .stringValue())
                .isEqualTo("by must be of " + String.join(", ", FILE.codes("Axis")));
    }

    private static List<String> words(Enum<?>[] values) {
        return Stream.of(values).map(Object::toString).toList();
    }

    @Test
    void listsEveryRuleOfACase() throws ClassNotFoundException {
        List<String> rules = Stream.of(
                        Class.forName("entrapment.registry.cases.CaseRule").getEnumConstants())
                .map(rule -> ((Enum<?>) rule).name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .toList();
        String description = operation("PUT", "/api/centres/{centre}/cases/{caseKey}")
                .node()
                .required("description")
                .stringValue();

        List<String> listed = Pattern.compile("^\\| `([a-z-]+)` \\| (?:refused|asks): ", Pattern.MULTILINE)
                .matcher(description)
                .results()
                .map(row -> row.group(1))
                .toList();

        assertThat(listed).isEqualTo(rules);
    }

    private static List<String> codes(List<? extends Code> codes) {
        return codes.stream().<String>map(Code::code).toList();
    }

    static Stream<Operation> operations() {
        return FILE.operations().stream();
    }

    static Stream<Exchange> exchanges() {
        return operations().flatMap(OpenApiTests::exchanges);
    }

    private static Stream<Exchange> exchanges(Operation operation) {
        return operation.bodies().isEmpty()
                ? Stream.of(new Exchange(operation, null))
                : operation.bodies().entrySet().stream()
                        .flatMap(body -> FILE.examples(body.getKey(), body.getValue()).stream())
                        .map(example -> new Exchange(operation, example));
    }

    private static Operation operation(String method, String path) {
        return operations()
                .filter(operation -> operation.toString().equals(method + " " + path))
                .findFirst()
                .orElseThrow();
    }

    /** A new centre; unless the operation is there to make them, the first case and return of the file are stored. */
    private TestCentre centreFor(Operation operation) {
        TestCentre centre = network.centre();
        if (operation.path().equals("/api/releases")) {
            giveACompleteYear();
        }
        boolean makesThem = operation.path().startsWith("/api/centres/")
                && operation.method().equals("PUT");
        if (!makesThem && operation.path().matches("/api/(centres|meetings)/.*")) {
            for (String path :
                    List.of("/api/centres/{centre}/cases/{caseKey}", "/api/centres/{centre}/activity/{period}")) {
                Operation put = operation("PUT", path);
                Example body = exchanges(put).findFirst().orElseThrow().body();
                assertThat(send(put, centre.submitter(), address(put, centre), body)
                                .status())
                        .isEqualTo(201);
            }
        }
        return centre;
    }

    /** The path with the file's own example of each parameter, but a centre and a key that exist here. */
    private String address(Operation operation, TestCentre centre) {
        String path = operation.path();
        if (path.equals("/api/centres/{centre}")) {
            return "/api/centres/openapi-" + NEXT.incrementAndGet();
        }
        if (path.contains("{id}")) {
            String issued = network.steward()
                    .post("/api/keys", "{\"role\": \"steward\", \"label\": \"to be revoked\"}")
                    .json()
                    .required("id")
                    .stringValue();
            path = path.replace("{id}", issued);
        }
        if (path.contains("{number}")) {
            path = path.replace("{number}", release());
        }
        if (path.contains("{meeting}")) {
            path = path.replace("{meeting}", meeting(operation, centre)).replace("{action}", "1");
        }
        path = path.replace("{centre}", centre.code());
        for (String name : List.of("caseKey", "period", "slug", "group")) {
            path = path.replace(
                    "{" + name + "}",
                    FILE.at("/components/parameters/" + name + "/example").stringValue());
        }
        return path;
    }

    /** A meeting with an action, that looks at a case if there is one; frozen where it is to be unfrozen or refrozen. */
    private static String meeting(Operation operation, TestCentre centre) {
        Operation add = operation("POST", "/api/meetings/{meeting}/actions");
        String path = centre.analyst().post("/api/meetings", """
                        {"kind": "quality", "from": "2026-Q2", "to": "2026-Q2",
                         "cases": {"rule": "random-sample", "size": 3}}""").header("Location");
        send(
                add,
                centre.analyst(),
                path + "/actions",
                exchanges(add).findFirst().orElseThrow().body());
        if (operation.path().endsWith("/thaw") || operation.path().endsWith("/recut")) {
            centre.analyst().send("POST", path + "/freeze", null);
        }
        return path.substring(path.lastIndexOf('/') + 1);
    }

    /** The number of a new release, of a registry with a complete year. */
    private String release() {
        giveACompleteYear();
        return network.steward()
                .post("/api/releases", "{}")
                .json()
                .required("number")
                .toString();
    }

    private void giveACompleteYear() {
        TestCentre centre = network.centre();
        assertThat(centre.submitter()
                        .put(centre.activity("2025-Q1"), "[{\"deviceClass\": \"stent\", \"uses\": 40}]")
                        .status())
                .isEqualTo(201);
    }

    private static Answer send(
            Operation operation, RegistryClient client, String address, @Nullable Example body, String... headers) {
        List<String> all = new ArrayList<>(List.of(headers));
        if (headers.length == 0) {
            operation.answers().keySet().stream().findFirst().ifPresent(type -> all.addAll(List.of("Accept", type)));
        }
        if (body != null) {
            all.addAll(List.of("Content-Type", body.type()));
        }
        boolean changesMeeting = operation.toString().matches("PUT /api/meetings/\\{meeting}(/actions/.*)?");
        if (changesMeeting || operation.method().equals("DELETE")) {
            all.addAll(List.of("If-Match", "\"1\""));
        }
        return client.send(operation.method(), address, body == null ? null : body.text(), all.toArray(String[]::new));
    }

    /** What of an answer is not as documented: its status, its type, a header, or its body. */
    private static List<String> undocumented(Operation operation, Answer answer) {
        JsonNode response = operation.responses().get(Integer.toString(answer.status()));
        if (response == null) {
            return List.of("status " + answer.status() + ": " + answer.body());
        }
        List<String> undocumented = new ArrayList<>();
        response.path("headers").propertyNames().forEach(header -> {
            if (answer.header(header).isEmpty()) {
                undocumented.add("no header " + header);
            }
        });
        String type = answer.header("Content-Type").replaceFirst(";.*", "");
        JsonNode media = response.path("content").path(type);
        if (media.isMissingNode()) {
            if (!answer.body().isEmpty()) {
                undocumented.add("type " + type);
            }
            return undocumented;
        }
        undocumented.addAll(FILE.mismatches(type, media, answer.body()));
        return undocumented;
    }
}
