package entrapment.registry.reports;

import static entrapment.registry.reports.question.ReportSamples.STEWARD;
import static entrapment.registry.reports.question.ReportSamples.analystOf;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import entrapment.registry.RegistryTest;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.cases.RetrievalSplit;
import entrapment.registry.intake.FieldErrors;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Refusal;
import entrapment.registry.reports.incidence.IncidenceQuery;
import entrapment.registry.reports.incidence.IncidenceQuestion;
import entrapment.registry.reports.question.GroupBy;
import entrapment.registry.reports.question.Question;
import entrapment.registry.reports.question.ReportQuery;
import entrapment.registry.reports.question.ReportSamples;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.retrieval.RetrievalQuestion;
import entrapment.registry.reports.riskfactors.RiskFactorsQuery;
import entrapment.registry.reports.riskfactors.RiskFactorsQuestion;
import entrapment.registry.reports.similarcases.SimilarCasesQuestion;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Filters;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class ReportQueryTests {

    @Autowired
    private IncidenceQuestion incidence;

    @Autowired
    private RetrievalQuestion retrieval;

    @Autowired
    private RiskFactorsQuestion riskFactors;

    @Autowired
    private SimilarCasesQuestion similarCases;

    @Test
    void asksAboutEverythingByDefault() {
        IncidenceQuery query = incidence("").orRefuse();

        assertThat(query.scope()).isEqualTo(ReportSamples.SCOPE);
        assertThat(query.by()).isEmpty();
        assertThat(query.method()).isEqualTo(IntervalMethod.WILSON);
        assertThat(query.scope().filters()).isEqualTo(Filters.NONE);
    }

    @Test
    void readsEveryCommonParameter() {
        ReportScope scope = incidence(
                        "centre=north&from=2030-Q1&to=2030-Q4&deviceClass=stent,balloon&calcification=severe"
                                + "&deviceSizeMm=1.50,unknown,3&confidence=0.9&asOf=812")
                .orRefuse()
                .scope();

        assertThat(scope.selection())
                .isEqualTo(new Selection(
                        List.of("north"),
                        new Period(2030, 1),
                        new Period(2030, 4),
                        Map.of(
                                Factor.DEVICE_CLASS,
                                List.of("stent", "balloon"),
                                Factor.CALCIFICATION,
                                List.of("severe"),
                                Factor.DEVICE_SIZE_MM,
                                List.of("1.5", "unknown", "3"))));
        assertThat(scope.confidence().level()).isEqualTo(0.9);
        assertThat(scope.asOf()).isEqualTo(812L);
        assertThat(scope.filters().byName().keySet())
                .containsExactly("centre", "from", "to", "deviceClass", "deviceSizeMm", "calcification");
    }

    @Test
    void answersEveryErrorAtOnce() {
        assertThat(FieldErrors.in(
                        incidence("from=2031-6&vessel=aorta&deviceSizeMm=thin&confidence=0.3&asOf=-1&by=colour"
                                + "&method=guess&colour=red")))
                .containsExactlyInAnyOrder(
                        "/from not-a-period",
                        "/vessel not-a-code",
                        "/deviceSizeMm wrong-type",
                        "/confidence out-of-range",
                        "/asOf out-of-range",
                        "/by not-a-code",
                        "/method not-a-code",
                        " unknown-parameter");
    }

    @ParameterizedTest
    @CsvSource({"2031-Q1, 2031-Q1, ''", "2031-Q2, 2031-Q1, /to period-order", "2030-Q4, 2031-Q1, ''"})
    void refusesAnEndBeforeTheBeginning(String from, String to, String error) {
        assertThat(String.join(", ", FieldErrors.in(incidence("from=" + from + "&to=" + to))))
                .isEqualTo(error);
    }

    @Test
    void readsWhatToSplitByInTheOrderAsked() {
        assertThat(incidence("by=year,calcification&by=centre&by=year")
                        .orRefuse()
                        .by())
                .extracting(GroupBy::code)
                .containsExactly("year", "calcification", "centre");
        assertThat(read(retrieval, "by=guideFrench,deviceClass", STEWARD)
                        .orRefuse()
                        .by())
                .containsExactly(RetrievalSplit.GUIDE_FRENCH, RetrievalSplit.DEVICE_CLASS);
        assertThat(FieldErrors.in(read(retrieval, "by=vessel", STEWARD))).containsExactly("/by not-a-code");
    }

    @Test
    void looksAtEveryFactorUnlessSomeAreNamed() {
        assertThat(riskFactors("").orRefuse().factors()).containsExactly(Factor.values());
        assertThat(riskFactors("factors=vessel,calcification&model=crude")
                        .orRefuse()
                        .factors())
                .containsExactly(Factor.VESSEL, Factor.CALCIFICATION);
        assertThat(FieldErrors.in(riskFactors("factors=vessel,centre&model=best")))
                .containsExactlyInAnyOrder("/factors not-a-code", "/model not-a-code");
    }

    @ParameterizedTest
    @CsvSource({
        "wilson, WILSON",
        "wilson-continuity, WILSON_CONTINUITY",
        "clopper-pearson, CLOPPER_PEARSON",
        "jeffreys, JEFFREYS"
    })
    void readsTheMethodOfTheInterval(String code, IntervalMethod method) {
        assertThat(incidence("method=" + code).orRefuse().method()).isEqualTo(method);
    }

    @Test
    void keepsASubmitterToTheOwnCentre() {
        Viewer submitter = new Viewer("key", Role.SUBMITTER, "north");

        assertThat(centres("", submitter)).containsExactly("north");
        assertThat(centres("centre=north", submitter)).containsExactly("north");
        assertThat(centres("", analystOf("north"))).isEmpty();
        assertThat(centres("centre=south,north", STEWARD)).containsExactly("south", "north");
    }

    @Test
    void doesNotTellWhetherAnotherCentreIsThere() {
        for (Viewer viewer : List.of(analystOf("north"), new Viewer("key", Role.SUBMITTER, "north"))) {
            Refusal refusal = catchThrowableOfType(Refusal.class, () -> centres("centre=north,south", viewer));

            assertThat(refusal.problem()).isEqualTo(Problem.NOT_FOUND);
            assertThat(refusal.getMessage()).doesNotContain("south");
        }
    }

    @Test
    void takesStrataThatAreNamedForTheStratifiedModel() {
        RiskFactorsQuery query = riskFactors("stratifyBy=deviceClass").orRefuse();

        assertThat(query.model()).isEqualTo(RiskFactorsQuery.Model.STRATIFIED);
        assertThat(query.stratifyBy()).containsExactly(GroupBy.DEVICE_CLASS);
        for (String model : List.of("crude", "adjusted")) {
            assertThat(FieldErrors.in(riskFactors("model=" + model + "&stratifyBy=deviceClass")))
                    .containsExactly("/stratifyBy without-strata");
        }
    }

    @Test
    void refusesALeafThatIsNoCode() {
        assertThat(read(similarCases, "mechanism=magnetism", STEWARD))
                .isInstanceOfSatisfying(
                        Reading.Refused.class,
                        refused -> assertThat(refused.errors().toString()).contains("/mechanism"));
    }

    private List<String> centres(String query, Viewer viewer) {
        return read(incidence, query, viewer).orRefuse().scope().selection().centres();
    }

    private Reading<IncidenceQuery> incidence(String query) {
        return read(incidence, query, STEWARD);
    }

    private Reading<RiskFactorsQuery> riskFactors(String query) {
        return read(riskFactors, query, STEWARD);
    }

    /** Reads a URL's query as Spring hands it over. */
    private static <Q extends ReportQuery> Reading<Q> read(Question<Q, ?, ?> question, String query, Viewer viewer) {
        Map<String, List<String>> given = new LinkedHashMap<>();
        Stream.of(query.split("&"))
                .filter(part -> !part.isEmpty())
                .map(part -> part.split("=", 2))
                .forEach(part -> given.merge(
                        part[0], List.of(part[1]), (one, other) -> Stream.concat(one.stream(), other.stream())
                                .toList()));
        return question.read(given, viewer);
    }
}
