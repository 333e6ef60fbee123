package entrapment.registry.intake;

import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Period.Resolution;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.stereotype.Component;

/**
 * What a network has settled with its privacy office: how fine the registry keeps time, whether it names models, and which
 * counts are too small for others to see.
 */
@Component
public class Settings {

    private static final int LEAST_THRESHOLD = 3;
    private static final int MOST_THRESHOLD = 11;

    private final Resolution periodResolution;
    private final boolean deviceIdentifier;
    private final int smallestCount;

    /**
     * @param periodResolution what every period of the registry is
     * @param deviceIdentifier whether a case may carry a UDI device identifier
     * @param smallestCount k in [3, 11]: counts of 1 to k-1 are hidden from the outside and from other centres
     */
    public Settings(
            @Value("${registry.period-resolution:quarter}") Resolution periodResolution,
            @Value("${registry.device-identifier:false}") boolean deviceIdentifier,
            @Value("${registry.smallest-count:5}") int smallestCount) {
        if (smallestCount < LEAST_THRESHOLD || smallestCount > MOST_THRESHOLD) {
            throw new IllegalArgumentException("registry.smallest-count must be in [" + LEAST_THRESHOLD + ", "
                    + MOST_THRESHOLD + "], got " + smallestCount);
        }
        this.periodResolution = periodResolution;
        this.deviceIdentifier = deviceIdentifier;
        this.smallestCount = smallestCount;
    }

    public Resolution periodResolution() {
        return periodResolution;
    }

    public boolean deviceIdentifier() {
        return deviceIdentifier;
    }

    public int smallestCount() {
        return smallestCount;
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
