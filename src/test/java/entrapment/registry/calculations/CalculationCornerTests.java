package entrapment.registry.calculations;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryClient.Answer;
import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Counts at the edge of what a method can say: nothing, everything, one, tens of millions, empty margins, separation. The
 * answer is null or infinite with a note that says why, and never a failure, NaN or a huge number in its place.
 *
 * <p>Figures: R 4.2.2, by {@code qbeta}, {@code qchisq}, {@code binom.test}; mid-P limits by {@code uniroot} on the
 * conditional distribution from {@code lchoose}; odds ratios after Firth of one factor as log odds with ½ in each cell; models of
 * centres by {@code optim} on the likelihood from {@code integrate} and {@code lbeta}.
 */
@RegistryTest
class CalculationCornerTests {

    private static final JsonMapper JSON = JsonMapper.shared();
    private static final JsonNode TOLERANCE = JSON.readTree("{\"abs\": 1e-15, \"rel\": 1e-5}");
    private static final double HUGE = 1e6;

    /** Words of the table below for what is long: of sixty centres, forty have no event. */
    private static final Map<String, String> LONG = Map.of(
            "SIXTY", rows(60, i -> "{\"name\": \"c%d\", %s}".formatted(i, sixty(i))),
            "NAMES", rows(60, "\"c%d\""::formatted),
            "LABS", rows(60, i -> "{\"lab\": \"c%d\", %s}".formatted(i, sixty(i))),
            "LEVELS", rows(10, "\"l%d\""::formatted),
            "GROUPS", rows(10, i -> "{\"name\": \"l%d\", %s}".formatted(i, ten(i))),
            "PATTERNS", rows(10, i -> "{\"size\": \"l%d\", %s}".formatted(i, ten(i))),
            "MILLION", rows(1_000_000, i -> i % 1_000 == 999 ? "1" : "0"));

    @Autowired
    private TestNetwork network;

    private static String rows(int many, IntFunction<String> row) {
        return IntStream.range(0, many).mapToObj(row).collect(joining(", ", "[", "]"));
    }

    private static String sixty(int centre) {
        return counts(centre < 20 ? 1 + centre % 3 : 0, 50 + centre * 37 % 200);
    }

    private static String ten(int level) {
        return counts(level == 0 ? 12 : 0, 300 + level);
    }

    private static String counts(int events, int of) {
        return "\"events\": %d, \"of\": %d".formatted(events, of);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            proportion | {"events": 0, "of": 0} | {"estimate": null, "wilson": {"lower": null, "upper": null}, "zeroEventUpperOneSided": null} | NO_EXPOSURE
            proportion | {"events": 0, "of": 640} | {"estimate": 0, "wilson": {"lower": 0}, "clopperPearson": {"lower": 0}, "jeffreys": {"lower": 0}, "zeroEventUpperOneSided": 0.00466989365783} | NO_EVENT
            proportion | {"events": 640, "of": 640} | {"estimate": 1, "wilson": {"upper": 1}, "clopperPearson": {"lower": 0.994252705107, "upper": 1}, "jeffreys": {"upper": 1}} | BOUNDARY
            proportion | {"events": 0, "of": 1} | {"clopperPearson": {"lower": 0, "upper": 0.975}, "wilson": {"upper": 0.793450685623}, "ruleOfThree": 1} | NO_EVENT
            plan-precision | {"anticipatedProportion": 0, "halfWidth": 0.02, "zeroEventBound": 0.05} | {"nWilson": 93, "nWald": null, "nForZeroEventsBelow": 59} | BOUNDARY
            proportion | {"events": 1, "of": 1} | {"clopperPearson": {"lower": 0.025, "upper": 1}} | BOUNDARY
            proportion | {"events": 0, "of": 10000000} | {"clopperPearson": {"lower": 0, "upper": 3.68887877372e-07}, "jeffreys": {"upper": 2.51194271537e-07}} | NO_EVENT
            proportion | {"events": 2, "of": 20000000} | {"clopperPearson": {"lower": 1.21104641566e-08}} |
            rate | {"events": 0, "exposure": 0} | {"rate": null, "garwood": {"lower": null, "upper": null}} | NO_EXPOSURE
            rate | {"events": 1, "exposure": 10000000} | {"garwood": {"lower": 2.53178079843e-09, "upper": 5.57164339094e-07}} |
            rate-ratio | {"a": {"events": 0, "exposure": 10}, "b": {"events": 0, "exposure": 10}} | {"ratio": null, "exact": {"lower": 0, "upper": "Inf"}, "midP": {"lower": 0, "upper": "Inf"}, "midPValue": 1} | NO_EVENT
            rate-ratio | {"a": {"events": 3, "exposure": 10}, "b": {"events": 0, "exposure": 10}} | {"ratio": "Inf", "exact": {"lower": 0.413231355031, "upper": "Inf"}, "waldLog": {"lower": null}} | ZERO_CELL
            rate-ratio | {"a": {"events": 3, "exposure": 0}, "b": {"events": 3, "exposure": 10}} | {"ratio": null, "exact": {"lower": 0, "upper": "Inf"}} | NO_EXPOSURE
            difference | {"a": {"events": 0, "of": 0}, "b": {"events": 1, "of": 9}} | {"difference": null, "newcombe": {"lower": null, "upper": null}} | NO_EXPOSURE
            difference | {"a": {"events": 0, "of": 9}, "b": {"events": 0, "of": 5}} | {"difference": 0, "newcombe": {"lower": -0.434482464843, "upper": 0.299145048377}} | NO_EVENT
            relative-risk | {"a": {"events": 0, "of": 9}, "b": {"events": 0, "of": 5}} | {"relativeRisk": null, "koopman": {"lower": 0, "upper": "Inf"}, "katz": {"lower": null}} | NO_EVENT
            relative-risk | {"a": {"events": 3, "of": 9}, "b": {"events": 0, "of": 5}} | {"relativeRisk": "Inf", "koopman": {"upper": "Inf"}, "katz": {"upper": null}} | ZERO_CELL
            relative-risk | {"a": {"events": 0, "of": 9}, "b": {"events": 3, "of": 5}} | {"relativeRisk": 0, "koopman": {"lower": 0}, "katz": {"lower": null}} | ZERO_CELL
            relative-risk | {"a": {"events": 5, "of": 5}, "b": {"events": 9, "of": 9}} | {"relativeRisk": 1, "katz": {"lower": null, "upper": null}} | BOUNDARY
            odds-ratio | {"exposed": {"events": 0, "of": 5}, "reference": {"events": 0, "of": 9}} | {"estimable": false, "oddsRatio": null, "exact": {"lower": 0, "upper": "Inf"}, "midP": {"lower": 0, "upper": "Inf"}, "fisherPValue": 1, "midPValue": 1} | EMPTY_MARGIN
            odds-ratio | {"exposed": {"events": 5, "of": 5}, "reference": {"events": 9, "of": 9}} | {"estimable": false, "oddsRatio": null, "conditionalMle": null} | EMPTY_MARGIN
            odds-ratio | {"exposed": {"events": 0, "of": 0}, "reference": {"events": 1, "of": 9}} | {"estimable": false, "woolf": {"oddsRatio": null, "haldaneAnscombeApplied": false}} | EMPTY_MARGIN
            odds-ratio | {"exposed": {"events": 4, "of": 42}, "reference": {"events": 0, "of": 71}} | {"oddsRatio": "Inf", "conditionalMle": "Inf", "midP": {"lower": 1.58365555739, "upper": "Inf"}, "woolf": {"haldaneAnscombeApplied": true}} | ZERO_CELL
            odds-ratio | {"exposed": {"events": 1, "of": 1}, "reference": {"events": 0, "of": 1}} | {"oddsRatio": "Inf", "midP": {"lower": 0.0526315789474, "upper": "Inf"}} | ZERO_CELL
            odds-ratio | {"exposed": {"events": 12, "of": 10000000}, "reference": {"events": 5, "of": 10000000}} | {"midP": {"lower": 0.862845, "upper": 7.57433}} |
            odds-ratio-levels | {"levels": [{"name": "a", "events": 0, "of": 0}, {"name": "b", "events": 3, "of": 50}, {"name": "c", "events": 0, "of": 40}]} | {"levels": [{"estimable": false, "oddsRatio": null}, {"estimable": true, "oddsRatio": 0}], "overall": {"df": 1}} | EMPTY_MARGIN
            odds-ratio-levels | {"levels": GROUPS, "reference": "l9"} | {"overall": {"df": 9}} | ZERO_CELL
            stratified-odds-ratio | {"strata": [{"name": "a", "exposed": {"events": 4, "of": 10}, "reference": {"events": 2, "of": 12}}, {"name": "b", "exposed": {"events": 0, "of": 5}, "reference": {"events": 0, "of": 6}}]} | {"informativeStrata": 1, "droppedStrata": ["b"], "oddsRatio": 3.33333333333, "tarone": {"pValue": null}, "exact": {"midP": {"lower": 0.426082547869, "upper": 31.1112771017}}} | ONE_STRATUM
            stratified-odds-ratio | {"strata": [{"name": "a", "exposed": {"events": 0, "of": 0}, "reference": {"events": 1, "of": 9}}]} | {"informativeStrata": 0, "oddsRatio": null, "cmh": {"pValue": null}, "exact": {"conditionalMle": null, "exact": {"lower": 0, "upper": "Inf"}, "midPValue": 1}} | EMPTY_MARGIN
            stratified-odds-ratio | {"strata": [{"name": "a", "exposed": {"events": 4, "of": 42}, "reference": {"events": 0, "of": 71}}]} | {"oddsRatio": "Inf", "rbg": {"lower": null, "upper": null}, "exact": {"midP": {"lower": 1.58365555739, "upper": "Inf"}}} | ZERO_CELL
            logistic-separation | {"terms": [{"name": "x", "type": "numeric"}], "patterns": [{"x": 0, "events": 0, "of": 5}, {"x": 1, "events": 0, "of": 5}, {"x": 2, "events": 5, "of": 5}]} | {"separation": "complete", "coefficients": {"(Intercept)": "-Inf", "x": "+Inf"}} | SEPARATION
            logistic | {"terms": [{"name": "x", "type": "numeric"}], "patterns": [{"x": 0, "events": 0, "of": 5}, {"x": 1, "events": 0, "of": 5}, {"x": 2, "events": 5, "of": 5}]} | {"separation": "complete", "logLikelihood": null, "lrPValue": null, "terms": []} | SEPARATION
            logistic-firth | {"terms": [{"name": "x", "type": "numeric"}], "patterns": [{"x": 0, "events": 0, "of": 5}, {"x": 1, "events": 0, "of": 5}, {"x": 2, "events": 5, "of": 5}]} | {"separationOfMl": "complete"} | SEPARATION
            logistic | {"terms": [{"name": "calcium", "type": "factor", "levels": ["no", "yes"], "reference": "no"}], "patterns": [{"calcium": "no", "events": 15, "of": 72}, {"calcium": "yes", "events": 0, "of": 16}]} | {"separation": "quasi-complete", "directions": {"(Intercept)": "finite", "calcium[yes]": "-Inf"}, "logLikelihood": null} | SEPARATION
            logistic-firth | {"terms": [{"name": "calcium", "type": "factor", "levels": ["no", "yes"], "reference": "no"}], "patterns": [{"calcium": "no", "events": 15, "of": 72}, {"calcium": "yes", "events": 0, "of": 16}]} | {"separationOfMl": "quasi-complete", "coefficients": {"calcium[yes]": {"estimate": -2.18556263759}}} | SEPARATION
            logistic-firth | {"terms": [{"name": "calcium", "type": "factor", "levels": ["no", "yes"], "reference": "no"}], "patterns": [{"calcium": "no", "events": 0, "of": 7}, {"calcium": "yes", "events": 0, "of": 9}]} | {"separationOfMl": "complete", "coefficients": {"calcium[yes]": {"estimate": -0.236388778064}}} | SEPARATION
            logistic-firth | {"terms": [], "patterns": [{"events": 1, "of": 1}]} | {"coefficients": {"(Intercept)": {"oddsRatio": 3}}, "overallPlr": {"pValue": null}} | SEPARATION
            logistic-firth | {"terms": [{"name": "size", "type": "factor", "levels": LEVELS, "reference": "l0"}], "patterns": PATTERNS} | {"separationOfMl": "quasi-complete", "coefficients": {"size[l9]": {"estimate": -3.28913883104}}} | LOW_EPV
            funnel | {"centres": SIXTY} | {"target": 0.0042904290429} |
            funnel | {"centres": [{"name": "a", "events": 0, "of": 0}, {"name": "b", "events": 1, "of": 90}]} | {"centres": [{"estimate": null, "flag": "no data", "midPValue": null}, {"flag": "within"}]} | FEW_CENTRES
            funnel-overdispersion | {"centres": SIXTY} | {"phiUnwinsorised": 2.31956003762} | APPROXIMATE
            shrinkage | {"centres": SIXTY} | {"boundary": false, "mu": 0.0049562640866, "rho": 0.0121145020289} | APPROXIMATE
            shrinkage | {"centres": [{"name": "a", "events": 0, "of": 50}, {"name": "b", "events": 0, "of": 90}]} | {"mu": null, "rho": null, "lrHalfPValue": null} | NO_EVENT
            pooled-proportion | {"centres": SIXTY} | {"mu": -6.13760463149, "tau": 1.37388134128} |
            pooled-proportion | {"centres": [{"name": "a", "events": 0, "of": 50}, {"name": "b", "events": 0, "of": 90}]} | {"mu": null, "tau": null, "waldAsProportion": {"estimate": null}} | NO_EVENT
            pooled-effects | {"centres": SIXTY} | {"k": 60, "q": 49.646006407} | APPROXIMATE
            logistic-random-intercept | {"terms": [], "cluster": "lab", "patterns": LABS} | {"coefficients": {"(Intercept)": {"estimate": -6.13760463149}}, "sdRandomIntercept": 1.37388134128} |
            logistic-random-intercept | {"terms": [], "cluster": "lab", "patterns": [{"lab": "a", "events": 0, "of": 50}, {"lab": "b", "events": 0, "of": 90}]} | {"sdRandomIntercept": null, "logLikelihood": null} | SEPARATION
            indirect-standardisation | {"reference": [{"events": 0, "of": 100}], "centre": [{"events": 0, "of": 50}]} | {"expected": 0, "oOverE": null, "exact": {"lower": null, "upper": null}} | NO_EVENT
            indirect-standardisation | {"reference": [{"events": 1, "of": 100}], "centre": [{"events": 0, "of": 50}]} | {"oOverE": 0, "exact": {"lower": 0, "upper": 7.37775890823}} | TOO_FEW_EVENTS
            direct-standardisation | {"strata": [{"events": 0, "of": 0, "weight": 1}, {"events": 1, "of": 9, "weight": 2}]} | {"rate": null, "fayFeuer": {"lower": null, "upper": null}, "strataWithoutData": 1} | NO_EXPOSURE
            attempts | {"cases": [[0]]} | {"perAttempt": {"clusterStandardError": null, "designEffect": null, "clusterT": {"lower": null}}, "afterFailure": {"estimate": null}} | NO_VARIATION
            discrimination | {"rows": [{"predicted": 0.1, "events": 1, "of": 5}]} | {"delongStandardError": null, "ci": {"lower": null}, "calibrationSlope": null} | NO_VARIATION
            trend | {"groups": [{"score": 2030, "events": 0, "of": 10}, {"score": 2031, "events": 0, "of": 10}]} | {"z": null, "slope": null, "midPValue": null} | NO_EVENT
            trend | {"groups": [{"score": 2030, "events": 0, "of": 10000000}, {"score": 2031, "events": 1, "of": 10000000}]} | {"exactUpperPValue": 0.5, "midPValue": 0.5} | APPROXIMATE
            p-chart | {"subgroups": [{"events": 0, "of": 0}, {"events": 0, "of": 9}]} | {"subgroups": [{"estimate": null, "signal": "no data"}, {"upper": null, "signal": "none"}]} | NO_EVENT
            g-chart | {"gaps": []} | {"meanGap": null, "probability": {"lower": null, "upper": null}} | TOO_FEW_EVENTS
            cusum | {"outcomes": [], "risk": 0.01, "oddsRatioAlternative": 2, "threshold": 3} | {"maximum": null, "firstSignal": null} | NO_EXPOSURE
            cusum | {"outcomes": MILLION, "risk": 0.001, "oddsRatioAlternative": 2, "threshold": 3.5} | {"maximum": 0.692147680227, "firstSignal": null, "signals": []} |
            missing-outcome-bounds | {"events": 0, "known": 0, "missingOutcome": 5} | {"completeCase": {"estimate": null}, "lowestPossible": 0, "highestPossible": 1, "envelope": {"lower": 0, "upper": 1}} | MISSING_OUTCOMES
            """)
    void saysWhatCanBeSaidAndWhyNoMore(String method, String body, String expected, @Nullable String note) {
        Answer answer = post(method, body);

        assertThat(answer.status()).isEqualTo(200);
        List<String> differences = new ArrayList<>();
        CalculationApiTests.compare("", JSON.readTree(expected), answer.json(), TOLERANCE, differences);
        assertThat(differences).isEmpty();
        assertThat(answer.body()).doesNotContain("NaN");
        assertThat(huge("", answer.json())).isEmpty();
        if (note != null) {
            assertThat(answer.json().required("notes").valueStream().map(JsonNode::stringValue))
                    .anyMatch(said -> said.endsWith("(" + note + ")"));
        }
    }

    /** What no model or exact sum should be asked points at what to leave out. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            logistic-firth | {"terms": [{"name": "calcium", "type": "factor", "levels": ["no", "yes"], "reference": "no"}, {"name": "twin", "type": "factor", "levels": ["no", "yes"], "reference": "no"}], "patterns": [{"calcium": "no", "twin": "no", "events": 1, "of": 3}, {"calcium": "yes", "twin": "yes", "events": 2, "of": 3}]} | /terms/1/levels/1 | aliased
            logistic-firth | {"terms": [{"name": "lab", "type": "factor", "levels": NAMES, "reference": "c0"}], "patterns": LABS} | /terms/0/levels | too-many
            odds-ratio | {"exposed": {"events": 10000000, "of": 10000000}, "reference": {"events": 0, "of": 10000000}} | '' | impossible-counts
            """)
    void refusesWhatHasNoAnswer(String method, String body, String pointer, String code) {
        Answer answer = post(method, body);

        assertThat(answer.status()).isEqualTo(422);
        assertThat(answer.json().at("/errors/0/pointer").stringValue()).isEqualTo(pointer);
        assertThat(answer.json().at("/errors/0/code").stringValue()).isEqualTo(code);
    }

    private Answer post(String method, String body) {
        String whole = body;
        for (Map.Entry<String, String> word : LONG.entrySet()) {
            whole = whole.replace(word.getKey(), word.getValue());
        }
        return network.steward().post("/api/calculations/" + method, whole);
    }

    /** Where the answer has a number that stands in for infinity. */
    private static List<String> huge(String at, JsonNode node) {
        List<String> places = new ArrayList<>();
        if (node.isNumber() && Math.abs(node.doubleValue()) > HUGE) {
            places.add(at + ": " + node);
        }
        node.propertyStream().forEach(each -> places.addAll(huge(at + "/" + each.getKey(), each.getValue())));
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            places.addAll(huge(at + "/" + i, node.get(i)));
        }
        return places;
    }
}
