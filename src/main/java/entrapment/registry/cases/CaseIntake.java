package entrapment.registry.cases;

import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import java.time.Clock;
import java.time.LocalDate;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Reads a case as a centre sends it, with every rule that can refuse it. */
@Component
class CaseIntake {

    private final Clock clock;
    private final Settings settings;

    CaseIntake(Clock clock, Settings settings) {
        this.clock = clock;
        this.settings = settings;
    }

    /** Reads a case whose key stands in the path; a key in the body must be the same. */
    Reading<KeyedCase> read(JsonNode body, String caseKey) {
        return Fields.read(body, fields -> {
            String given = fields.text("caseKey");
            Identifying.checkKey(fields, "caseKey", caseKey);
            if (given != null && !given.equals(caseKey)) {
                fields.refuse("caseKey", "other-key", "caseKey must be the key in the path");
            }
            return new KeyedCase(caseKey, content(fields));
        });
    }

    /** Reads a case that carries its own key, as a row of many does. */
    Reading<KeyedCase> read(JsonNode body) {
        return Fields.read(body, fields -> {
            String caseKey = fields.requiredText("caseKey");
            if (!caseKey.isEmpty()) {
                Identifying.checkKey(fields, "caseKey", caseKey);
            }
            return new KeyedCase(caseKey, content(fields));
        });
    }

    private EntrapmentCase content(Fields fields) {
        EntrapmentCase content =
                EntrapmentCase.read(fields, Period.of(LocalDate.now(clock), settings.periodResolution()));
        CaseRule.refuse(content, fields);
        String identifier = content.device().deviceIdentifier();
        if (identifier != null && !settings.deviceIdentifier()) {
            fields.refuseAt("/device/deviceIdentifier", "device-identifier-off", DeviceIdentifier.OFF);
        } else if (identifier != null && !DeviceIdentifier.valid(identifier)) {
            fields.refuseAt(
                    "/device/deviceIdentifier", "not-a-device-identifier", "deviceIdentifier " + DeviceIdentifier.RULE);
        }
        return content;
    }
}
