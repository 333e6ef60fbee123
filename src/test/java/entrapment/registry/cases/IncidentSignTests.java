package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period.Resolution;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** When a sender is pointed at the rules on incidents; which signs do it is the registry's own convention. */
class IncidentSignTests {

    private static final CaseIntake INTAKE = new CaseIntake(
            Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC),
            new Settings(Resolution.QUARTER, false, 5));

    @Test
    void saysNothingOfAnUnremarkableCase() {
        assertThat(IncidentSign.of(content(CaseSamples.aCase()))).isEmpty();
        assertThat(IncidentSign.notes(content(CaseSamples.aCase()))).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(IncidentSign.class)
    void seesEachSignAlone(IncidentSign sign) {
        EntrapmentCase shown = content(showing(sign));

        assertThat(IncidentSign.of(shown)).containsExactly(sign);
        assertThat(IncidentSign.notes(shown)).singleElement().asString().contains("(" + sign.reason() + ")");
    }

    private static CaseSamples showing(IncidentSign sign) {
        CaseSamples sample = CaseSamples.aCase();
        return switch (sign) {
            case DEATH -> complication(sample.with("/outcome/harm", "death"), "in-hospital-death");
            case SEVERE_HARM -> sample.with("/outcome/harm", "severe");
            case SURGERY -> sample.tried("surgery", "released");
            case DEVICE_BROKEN_APART -> sample.with("/event/fractured", "yes");
            case FAILED_DEFLATION -> sample.with("/event/mechanism", "failed-deflation");
            case FRAGMENT_LEFT -> fragment(sample, "partial", "embolised");
            case STENT_AVULSED -> complication(sample, "stent-avulsed");
        };
    }

    private static CaseSamples complication(CaseSamples sample, String complication) {
        return sample.change(tree -> tree.withArray("/outcome/complications").add(complication));
    }

    private static CaseSamples fragment(CaseSamples sample, String release, String fragment) {
        return sample.tried("snare", release.equals("partial") ? "part-released" : "no-change")
                .with("/outcome/release", release)
                .with("/outcome/fragment", fragment);
    }

    @ParameterizedTest
    @CsvSource({
        "partial, embolised, true",
        "partial, stented-over, true",
        "none, in-vessel, true",
        "none, in-aorta, true",
        "partial, none, false",
        "partial, unknown, false",
        "none, none, false",
        "none, unknown, false"
    })
    void takesAFragmentThatIsKnownToBeLeftAsASign(String release, String fragment, boolean seen) {
        Set<IncidentSign> expected = seen ? EnumSet.of(IncidentSign.FRAGMENT_LEFT) : Set.of();

        assertThat(Set.copyOf(IncidentSign.of(content(fragment(CaseSamples.aCase(), release, fragment)))))
                .isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource({"moderate", "mild", "none"})
    void takesLessThanSevereHarmForNoSign(String harm) {
        assertThat(IncidentSign.of(content(CaseSamples.aCase().with("/outcome/harm", harm))))
                .isEmpty();
    }

    @Test
    void takesEmergencySurgeryAmongTheComplicationsForSurgery() {
        assertThat(IncidentSign.of(content(complication(CaseSamples.aCase(), "emergency-surgery"))))
                .containsExactly(IncidentSign.SURGERY);
    }

    @Test
    void namesTheRulesAndNeverJudges() {
        for (String note : List.of(
                IncidentSign.NOTE_OF_MANY,
                IncidentSign.notes(content(showing(IncidentSign.DEVICE_BROKEN_APART)))
                        .get(0))) {
            assertThat(note)
                    .contains(
                            "may require a report within days",
                            "21 CFR 803.10 and 803.30, within 10 work days",
                            "Regulation (EU) 2017/745, Art. 87",
                            "hospitals by national rules",
                            "Check with your own safety office",
                            "does not judge")
                    .doesNotContain("must");
            assertThat(note.toLowerCase(Locale.ROOT)).doesNotContain("you have to", "is reportable");
        }
        assertThat(IncidentSign.NOTE_OF_MANY)
                .contains(IncidentSign.DEATH.reason(), IncidentSign.STENT_AVULSED.reason());
    }

    private static EntrapmentCase content(CaseSamples sample) {
        return ((Reading.Valid<KeyedCase>) INTAKE.read(sample.tree(), "QK7-A4TZ"))
                .value()
                .content();
    }
}
