package entrapment.registry.calculations.web;

import entrapment.registry.calculations.Calculations;
import entrapment.registry.intake.Bodies;
import entrapment.registry.intake.Problem;
import entrapment.registry.stats.Calculation;
import java.io.InputStream;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RestController;

@RestController
class CalculationController {

    private static final long LARGEST_BODY = 4L * 1_024 * 1_024;

    /** A CUSUM takes a risk for each of a million uses. */
    private static final long LARGEST_SEQUENCE = 16L * 1_024 * 1_024;

    private final Calculations calculations;

    CalculationController(Calculations calculations) {
        this.calculations = calculations;
    }

    /** The fields of the method's result, then the method itself. */
    @PostMapping(
            path = "/api/calculations/{method}",
            consumes = MediaType.APPLICATION_JSON_VALUE,
            produces = MediaType.APPLICATION_JSON_VALUE)
    Map<String, Object> calculate(@PathVariable String method, InputStream body) throws ReflectiveOperationException {
        Calculation calculation = Arrays.stream(Calculation.values())
                .filter(candidate -> candidate.code().equals(method))
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such method; there are "
                        + Arrays.stream(Calculation.values())
                                .map(Calculation::code)
                                .collect(Collectors.joining(", "))
                        + "."));
        long most = calculation == Calculation.CUSUM ? LARGEST_SEQUENCE : LARGEST_BODY;
        Record result = calculations
                .answer(calculation, Bodies.json(Bodies.limited(body, most)))
                .orRefuse();
        Map<String, Object> answer = new LinkedHashMap<>();
        for (RecordComponent component : result.getClass().getRecordComponents()) {
            answer.put(component.getName(), component.getAccessor().invoke(result));
        }
        answer.put("method", calculation.method());
        return answer;
    }
}
