package entrapment.registry.intake;

import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Period.Resolution;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/** What a network has settled with its privacy office: how fine the registry keeps time, and whether it names models. */
@Component
public class Settings {

    private final Resolution periodResolution;
    private final boolean deviceIdentifier;

    /**
     * @param periodResolution what every period of the registry is
     * @param deviceIdentifier whether a case may carry a UDI device identifier
     */
    public Settings(
            @Value("${registry.period-resolution:quarter}") Resolution periodResolution,
            @Value("${registry.device-identifier:false}") boolean deviceIdentifier) {
        this.periodResolution = periodResolution;
        this.deviceIdentifier = deviceIdentifier;
    }

    public Resolution periodResolution() {
        return periodResolution;
    }

    public boolean deviceIdentifier() {
        return deviceIdentifier;
    }

    /**
     * Refuses parameters whose periods have another resolution than the network's.
     *
     * @param periods by the name of the parameter
     */
    public void requireResolution(Map<String, Period> periods) {
        List<FieldError> errors = new ArrayList<>();
        periods.forEach((name, period) -> {
            if (period.resolution() != periodResolution) {
                errors.add(new FieldError("/" + name, "not-a-period", name + " " + periodResolution.rule()));
            }
        });
        if (!errors.isEmpty()) {
            throw Problem.refused(errors);
        }
    }
}
