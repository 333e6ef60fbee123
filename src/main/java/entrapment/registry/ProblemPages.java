package entrapment.registry;

import entrapment.registry.intake.Problem;
import java.util.Arrays;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;

/** What stands behind the type URI of a problem. */
@RestController
class ProblemPages {

    @GetMapping(path = "/problems/{slug}", produces = MediaType.TEXT_PLAIN_VALUE)
    String problem(@PathVariable String slug) {
        Problem problem = Arrays.stream(Problem.values())
                .filter(candidate -> candidate.slug().equals(slug))
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no problem of this name."));
        return "%d  %s%n%n%s%n".formatted(problem.status(), problem.title(), problem.remedy());
    }
}
