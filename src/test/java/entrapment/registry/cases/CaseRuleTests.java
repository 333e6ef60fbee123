package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.intake.FieldErrors;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Period.Resolution;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;

/** Each rule from both sides. */
class CaseRuleTests {

    private static final CaseIntake INTAKE = new CaseIntake(
            Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC),
            new Settings(Resolution.QUARTER, false, 5));

    @Test
    void theUnremarkableCaseBreaksNoRule() {
        assertThat(told(CaseSamples.aCase())).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(CaseRule.class)
    void eachRuleCanBeBrokenAlone(CaseRule rule) {
        CaseSamples sample = Objects.requireNonNull(breaking().get(rule), "a case that breaks " + rule);

        assertThat(told(sample)).isNotEmpty().allSatisfy(told -> assertThat(told)
                .endsWith(" " + rule.id()));
    }

    /** For each rule a case that breaks it and no other. */
    private static Map<CaseRule, CaseSamples> breaking() {
        Map<CaseRule, CaseSamples> cases = new EnumMap<>(CaseRule.class);
        cases.put(CaseRule.SIZE_FOR_CLASS, device("rotational-burr", 0.8));
        cases.put(CaseRule.ATTEMPT_AFTER_RELEASE, tried("snare", "released", "snare", "released"));
        cases.put(
                CaseRule.RELEASE_WITHOUT_RELEASING, tried("snare", "no-change").with("/outcome/release", "intact"));
        cases.put(CaseRule.NONE_THOUGH_RELEASED, outcome("release", "none"));
        cases.put(CaseRule.FRAGMENT_WITH_INTACT, outcome("fragment", "in-vessel"));
        cases.put(CaseRule.DEATH_IS_IN_HOSPITAL_DEATH, outcome("harm", "death"));
        cases.put(CaseRule.MI_DEFINITION_WITHOUT_MI, outcome("miDefinition", "udmi-4a"));
        cases.put(CaseRule.FALLING_MINUTES, minutes("5", "4"));
        cases.put(CaseRule.BESIDE_BURR_IN_SMALL_GUIDE, besideABurr("7"));
        cases.put(CaseRule.BURR_TOO_LARGE_FOR_GUIDE, device("rotational-burr", 2.25));
        cases.put(CaseRule.STABLE_WITH_SHOCK, CaseSamples.aCase().with("/event/shockStage", "C"));
        cases.put(CaseRule.TAMPONADE_WITHOUT_HARM, complications("tamponade"));
        cases.put(CaseRule.SURGERY_WITHOUT_COMPLICATION, tried("surgery", "released"));
        cases.put(CaseRule.WORSE_PERFORATION_WITHOUT_HARM, perforation("III", "none"));
        cases.put(CaseRule.PARTIAL_WITHOUT_FRAGMENT, partial("none"));
        cases.put(CaseRule.STENT_TECHNIQUE_WITHOUT_STENT, tried("balloon-through-stent", "released"));
        return cases;
    }

    @ParameterizedTest
    @CsvSource({
        "guidewire, 0.20, 0.50",
        "balloon, 0.75, 6.00",
        "scoring-balloon, 0.75, 6.00",
        "lithotripsy-balloon, 0.75, 6.00",
        "stent, 0.75, 6.00",
        "rotational-burr, 1.00, 3.00",
        "orbital-crown, 1.00, 2.50",
        "laser-catheter, 0.70, 2.50",
        "microcatheter, 0.40, 3.00",
        "guide-extension, 0.40, 3.00",
        "imaging-catheter, 0.40, 3.00"
    })
    void allowsTheSizesThatAClassCanHave(String deviceClass, double least, double most) {
        assertThat(refusals(device(deviceClass, least))).isEmpty();
        assertThat(refusals(device(deviceClass, most))).isEmpty();
        if (least > 0.20) {
            assertThat(refusals(device(deviceClass, least - 0.01)))
                    .containsExactly("/device/deviceSizeMm size-for-class");
        }
        if (most < 6.00) {
            assertThat(refusals(device(deviceClass, most + 0.01)))
                    .containsExactly("/device/deviceSizeMm size-for-class");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"filter", "other"})
    void allowsAnySizeWhereAClassHasNoUsualOne(String deviceClass) {
        assertThat(refusals(device(deviceClass, 0.20))).isEmpty();
        assertThat(refusals(device(deviceClass, 6.00))).isEmpty();
    }

    @Test
    void allowsASizeThatIsNotKnown() {
        assertThat(told(CaseSamples.aCase().without("/device/deviceSizeMm"))).isEmpty();
    }

    @Test
    void refusesEveryAttemptAfterTheRelease() {
        assertThat(refusals(tried("snare", "released", "snare", "no-change", "snare", "released")))
                .containsExactly("/attempts/1 attempt-after-release", "/attempts/2 attempt-after-release");
        assertThat(refusals(tried("snare", "part-released", "snare", "worsened", "snare", "released")))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "intact, snare, released, ''",
        "damaged, snare, released, ''",
        "partial, snare, released, ''",
        "none, snare, released, /outcome/release none-though-released",
        "intact, snare, no-change, /outcome/release release-without-releasing",
        "damaged, snare, part-released, /outcome/release release-without-releasing",
        "intact, snare, worsened, /outcome/release release-without-releasing",
        "partial, snare, part-released, ''",
        "none, snare, no-change, ''",
        "none, left-in-place, no-change, ''",
        "intact, surgery, no-change, ''",
        "damaged, surgery, part-released, ''"
    })
    void theReleaseFollowsFromTheLastAttempt(String release, String technique, String result, String error) {
        CaseSamples sample = tried("device-rotation", "no-change", technique, result)
                .with("/outcome/release", release)
                .with("/outcome/fragment", "unknown");

        assertThat(String.join(", ", refusals(sample))).isEqualTo(error);
    }

    @Test
    void surgeryEarlierDoesNotExplainARelease() {
        assertThat(refusals(tried("surgery", "no-change", "snare", "no-change").with("/outcome/release", "intact")))
                .containsExactly("/outcome/release release-without-releasing");
    }

    @ParameterizedTest
    @CsvSource({
        "intact, none, true",
        "intact, unknown, true",
        "intact, stented-over, false",
        "intact, in-vessel, false",
        "intact, in-aorta, false",
        "intact, embolised, false",
        "damaged, in-vessel, true",
        "partial, embolised, true"
    })
    void anIntactDeviceLeavesNoFragment(String release, String fragment, boolean accepted) {
        assertThat(refusals(outcome("release", release).with("/outcome/fragment", fragment)))
                .isEqualTo(accepted ? List.of() : List.of("/outcome/fragment fragment-with-intact"));
    }

    @ParameterizedTest
    @CsvSource({"death, in-hospital-death, true", "death, stroke, false", "severe, in-hospital-death, false"})
    void deathIsBothAHarmAndAComplication(String harm, String complication, boolean accepted) {
        assertThat(refusals(complications(complication).with("/outcome/harm", harm)))
                .isEqualTo(accepted ? List.of() : List.of("/outcome/harm death-is-in-hospital-death"));
    }

    @ParameterizedTest
    @CsvSource({
        "scai, periprocedural-mi, true",
        "unknown, periprocedural-mi, true",
        "unknown, stroke, true",
        "scai, stroke, false",
        "other, stroke, false"
    })
    void aDefinitionNeedsItsInfarction(String definition, String complication, boolean accepted) {
        assertThat(refusals(complications(complication).with("/outcome/miDefinition", definition)))
                .isEqualTo(accepted ? List.of() : List.of("/outcome/miDefinition mi-definition-without-mi"));
    }

    @ParameterizedTest
    @CsvSource({
        "3 21, ''",
        "3 3, ''",
        "0 0 0, ''",
        "? 5 ? 5, ''",
        "5 4, 1",
        "5 ? 4, 2",
        "5 4 5, 1",
        "9 4 8 9, 1 2",
        "0 1440 1439, 2"
    })
    void minutesDoNotFallFromOneAttemptToTheNext(String minutes, String falling) {
        assertThat(refusals(minutes(minutes.split(" "))))
                .isEqualTo(
                        falling.isEmpty()
                                ? List.of()
                                : List.of(falling.split(" ")).stream()
                                        .map(index -> "/attempts/" + index + "/minutesFromEntrapment falling-minutes")
                                        .toList());
    }

    @ParameterizedTest
    @CsvSource({
        "6, rotational-burr, parallel-balloon, '', true",
        "7, rotational-burr, parallel-balloon, '', true",
        "7, rotational-burr, parallel-balloon, shaft-cut, true",
        "7, rotational-burr, parallel-balloon, sheath-removed, true",
        "7, rotational-burr, parallel-balloon, shaft-cut sheath-removed, false",
        "8, rotational-burr, parallel-balloon, '', false",
        "5, rotational-burr, parallel-balloon, '', false",
        "unknown, rotational-burr, parallel-balloon, '', false",
        "7, orbital-crown, parallel-balloon, '', false",
        "7, rotational-burr, snare, '', false"
    })
    void asksHowABalloonFitsBesideABurrInASmallGuide(
            String guide, String deviceClass, String technique, String enablers, boolean queried) {
        CaseSamples sample = besideABurr(guide)
                .with("/device/deviceClass", deviceClass)
                .with("/attempts/1/technique", technique)
                .change(tree -> enablers(tree.withArray("/attempts"), enablers));

        assertThat(queries(sample)).isEqualTo(queried ? List.of("/attempts/1 beside-burr-in-small-guide") : List.of());
    }

    private static void enablers(ArrayNode attempts, String enablers) {
        ArrayNode array = attempts.get(1).asObject().putArray("enablers");
        for (String enabler : enablers.isEmpty() ? List.<String>of() : List.of(enablers.split(" "))) {
            array.add(enabler);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "5, 1.25, false", "5, 1.26, true",
        "6, 1.75, false", "6, 1.76, true",
        "7, 2.00, false", "7, 2.01, true",
        "8, 2.25, false", "8, 2.26, true",
        "unknown, 3.00, false"
    })
    void asksWhetherALargeBurrPassedTheGuide(String guide, double size, boolean queried) {
        CaseSamples sample = device("rotational-burr", size).with("/procedure/guideFrench", guide);

        assertThat(queries(sample))
                .isEqualTo(queried ? List.of("/device/deviceSizeMm burr-too-large-for-guide") : List.of());
        assertThat(queries(sample.with("/device/deviceClass", "imaging-catheter")))
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "stable, A, false",
        "stable, B, false",
        "stable, C, true",
        "stable, D, true",
        "stable, E, true",
        "stable, unknown, false",
        "unstable, C, false",
        "arrest, E, false",
        "unknown, E, false"
    })
    void asksHowAPatientInShockWasStable(String haemodynamics, String stage, boolean queried) {
        assertThat(queries(CaseSamples.aCase()
                        .with("/event/haemodynamics", haemodynamics)
                        .with("/event/shockStage", stage)))
                .isEqualTo(queried ? List.of("/event/shockStage stable-with-shock") : List.of());
    }

    @ParameterizedTest
    @CsvSource({
        "tamponade, none, true",
        "tamponade, mild, true",
        "tamponade, moderate, false",
        "tamponade, severe, false",
        "stroke, none, false"
    })
    void asksWhetherTamponadeDidSoLittleHarm(String complication, String harm, boolean queried) {
        assertThat(queries(complications(complication).with("/outcome/harm", harm)))
                .isEqualTo(queried ? List.of("/outcome/harm tamponade-without-harm") : List.of());
    }

    @ParameterizedTest
    @CsvSource({"surgery, stroke, true", "surgery, emergency-surgery, false", "snare, stroke, false"})
    void asksForTheComplicationBehindSurgery(String technique, String complication, boolean queried) {
        CaseSamples sample = complications(complication).tried("snare", "no-change", technique, "released");

        assertThat(queries(sample))
                .isEqualTo(queried ? List.of("/outcome/complications surgery-without-complication") : List.of());
    }

    @ParameterizedTest
    @CsvSource({
        "III, none, true",
        "III, mild, false",
        "II, none, false",
        "III-cavity, none, false",
        "unknown, none, false"
    })
    void asksWhetherAPerforationOfTypeThreeDidNoHarm(String type, String harm, boolean queried) {
        assertThat(queries(perforation(type, harm)))
                .isEqualTo(queried ? List.of("/outcome/harm worse-perforation-without-harm") : List.of());
    }

    @ParameterizedTest
    @CsvSource({"none, true", "unknown, false", "in-vessel, false", "stented-over, false"})
    void asksWhereTheRestIs(String fragment, boolean queried) {
        assertThat(queries(partial(fragment)))
                .isEqualTo(queried ? List.of("/outcome/fragment partial-without-fragment") : List.of());
    }

    @ParameterizedTest
    @CsvSource({"balloon, true", "guidewire, true", "stent, false"})
    void asksWhichStentABalloonWasPassedThrough(String deviceClass, boolean queried) {
        CaseSamples sample = CaseSamples.aCase()
                .with("/device/deviceClass", deviceClass)
                .without("/device/deviceSizeMm")
                .tried("balloon-through-stent", "no-change", "balloon-through-stent", "released");

        assertThat(queries(sample))
                .isEqualTo(
                        queried
                                ? List.of(
                                        "/attempts/0 stent-technique-without-stent",
                                        "/attempts/1 stent-technique-without-stent")
                                : List.of());
    }

    @Test
    void passesOverARuleWhoseFieldsCouldNotBeRead() {
        assertThat(refusals(outcome("harm", "death").with("/outcome/complications", "none")))
                .containsExactly("/outcome/complications wrong-type");
        assertThat(refusals(tried("snare", "freed", "snare", "released").with("/outcome/release", "none")))
                .containsExactly("/attempts/0/result not-a-code");
        assertThat(refusals(device("burr", 0.8))).containsExactly("/device/deviceClass not-a-code");
    }

    @Test
    void asksNothingAboutARefusingRule() {
        EntrapmentCase storedBeforeTheRule = Fields.read(
                        JsonMapper.shared().readTree(minutes("5", "4").json()),
                        fields -> EntrapmentCase.read(fields, new Period(2026, 3)))
                .orRefuse();

        assertThat(CaseRule.queries(storedBeforeTheRule)).isEmpty();
    }

    @Test
    void saysAllThatIsWrongAtOnce() {
        assertThat(refusals(minutes("5", "4")
                        .with("/outcome/harm", "death")
                        .with("/lesion/vessel", "aorta")
                        .with("/device/deviceSizeMm", 0.8)))
                .containsExactlyInAnyOrder(
                        "/lesion/vessel not-a-code",
                        "/device/deviceSizeMm size-for-class",
                        "/outcome/harm death-is-in-hospital-death",
                        "/attempts/1/minutesFromEntrapment falling-minutes");
    }

    private static CaseSamples device(String deviceClass, double size) {
        return CaseSamples.aCase()
                .with("/device/deviceClass", deviceClass)
                .with("/device/deviceSizeMm", Math.round(size * 100) / 100.0);
    }

    private static CaseSamples tried(String... techniquesAndResults) {
        return CaseSamples.aCase().tried(techniquesAndResults);
    }

    private static CaseSamples outcome(String name, String value) {
        return CaseSamples.aCase().with("/outcome/" + name, value);
    }

    private static CaseSamples complications(String complication) {
        return CaseSamples.aCase()
                .change(tree -> tree.withArray("/outcome/complications").add(complication));
    }

    private static CaseSamples perforation(String type, String harm) {
        return outcome("perforation", type).with("/outcome/harm", harm);
    }

    private static CaseSamples partial(String fragment) {
        return tried("snare", "part-released")
                .with("/outcome/release", "partial")
                .with("/outcome/fragment", fragment);
    }

    private static CaseSamples besideABurr(String guide) {
        return CaseSamples.aCase()
                .with("/procedure/guideFrench", guide)
                .change(tree -> tree.withArray("/attempts").get(1).asObject().remove("enablers"));
    }

    /** Attempts with these minutes; a question mark for one whose minutes are not known. */
    private static CaseSamples minutes(String... minutes) {
        return CaseSamples.aCase().change(tree -> {
            ArrayNode attempts = tree.putArray("attempts");
            for (int index = 0; index < minutes.length; index++) {
                attempts.addObject()
                        .put("technique", "snare")
                        .put("result", index == minutes.length - 1 ? "released" : "no-change")
                        .put(
                                "minutesFromEntrapment",
                                minutes[index].equals("?") ? null : Integer.valueOf(minutes[index]));
            }
        });
    }

    /** Every rule that is broken, refusing or querying, behind its pointer. */
    private static List<String> told(CaseSamples sample) {
        List<String> refusals = refusals(sample);
        return refusals.isEmpty() ? queries(sample) : refusals;
    }

    private static List<String> refusals(CaseSamples sample) {
        return FieldErrors.in(read(sample));
    }

    private static List<String> queries(CaseSamples sample) {
        return CaseRule.queries(read(sample).orRefuse().content()).stream()
                .map(query -> query.pointer() + " " + query.rule())
                .toList();
    }

    private static Reading<KeyedCase> read(CaseSamples sample) {
        return INTAKE.read(JsonMapper.shared().readTree(sample.json()), "QK7-A4TZ");
    }
}
