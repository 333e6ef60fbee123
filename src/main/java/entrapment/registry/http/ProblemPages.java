package entrapment.registry.http;

import entrapment.registry.intake.Problem;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.MediaType;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;

/** What stands behind the type URI of a problem, and the answer to what fails outside the controllers. */
@RestController
class ProblemPages implements ErrorController {

    /** The container's own error page would repeat the path, which may hold a key that identifies. */
    @RequestMapping("${server.error.path:/error}")
    void error(HttpServletRequest request) {
        Problem problem = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer status
                ? Problem.ofStatus(status).orElse(Problem.NOT_FOUND)
                : Problem.NOT_FOUND;
        throw problem.refusal(problem.title() + ".");
    }

    @GetMapping(path = "/problems/{slug}", produces = MediaType.TEXT_PLAIN_VALUE)
    String problem(@PathVariable String slug) {
        Problem problem = Arrays.stream(Problem.values())
                .filter(candidate -> candidate.slug().equals(slug))
                .findFirst()
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no problem of this name."));
        return "%d  %s%n%n%s%n".formatted(problem.status(), problem.title(), problem.remedy());
    }
}
