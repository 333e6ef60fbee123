package entrapment.registry.intake.web;

import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period.Resolution;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Answers what the network has settled, so that a sender need not try it out. */
@RestController
class SettingsController {

    private final Settings settings;

    SettingsController(Settings settings) {
        this.settings = settings;
    }

    /** A setting with what it means for whoever sends and reads. */
    record Setting<T>(T value, String meaning) {}

    record View(
            Setting<Resolution> periodResolution, Setting<Boolean> deviceIdentifier, Setting<Integer> smallestCount) {}

    @GetMapping(path = "/api/settings", produces = MediaType.APPLICATION_JSON_VALUE)
    View settings() {
        return new View(
                new Setting<>(settings.periodResolution(), meaning(settings.periodResolution())),
                new Setting<>(
                        settings.deviceIdentifier(),
                        settings.deviceIdentifier()
                                ? "A case may carry a UDI device identifier, a GTIN-14 that names the model. A UDI with a"
                                        + " lot, a serial number or a date is refused."
                                : "A case that carries a device identifier is refused."),
                new Setting<>(
                        settings.smallestCount(),
                        "Counts of 1 to " + (settings.smallestCount() - 1)
                                + " entrapments are hidden from the outside, and"
                                + " those of another centre from a centre's analyst, with whatever would give them away."));
    }

    private static String meaning(Resolution resolution) {
        return switch (resolution) {
            case QUARTER ->
                "Periods are calendar quarters, YYYY-Qn. A quarter is finer than the US Safe Harbor rule, 45 CFR"
                        + " 164.514(b)(2)(i)(C), allows for a case: such rows need an expert's determination, or a limited"
                        + " data set with a data use agreement. Your privacy office decides.";
            case YEAR ->
                "Periods are calendar years, YYYY. Of the date of a case the registry keeps the year alone, as the US Safe"
                        + " Harbor rule, 45 CFR 164.514(b)(2)(i)(C), has it; the rule has further conditions. Your privacy"
                        + " office decides.";
        };
    }
}
