package entrapment.registry.http;

import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import java.net.URI;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessResourceFailureException;
import org.springframework.dao.TransientDataAccessException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.security.web.firewall.RequestRejectedException;
import org.springframework.transaction.CannotCreateTransactionException;
import org.springframework.transaction.TransactionTimedOutException;
import org.springframework.util.InvalidMimeTypeException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.servlet.mvc.method.annotation.ResponseEntityExceptionHandler;

/** Every refusal and failure as a problem (RFC 9457). No message of an exception reaches the caller: it may quote. */
@RestControllerAdvice
class ApiProblems extends ResponseEntityExceptionHandler {

    private static final Logger LOG = LoggerFactory.getLogger(ApiProblems.class);
    private static final String SECONDS_TO_WAIT = "10";

    /** What any exception is answered with; {@link PageProblems} writes it as a page. */
    @ExceptionHandler(Exception.class)
    ResponseEntity<?> answerTo(Exception failure, WebRequest request) {
        if (failure instanceof Refusal refusal) {
            return refused(refusal);
        }
        // The database is gone, too slow, or held up by another change: asking again can help.
        if (failure instanceof DataAccessResourceFailureException
                || failure instanceof TransientDataAccessException
                || failure instanceof CannotCreateTransactionException
                || failure instanceof TransactionTimedOutException) {
            return failed(Problem.UNAVAILABLE, failure);
        }
        // A query is read when it is first looked at: the container refuses too many parameters and broken escapes, the
        // firewall odd characters. Both messages quote.
        if (failure instanceof InvalidParameterException || failure instanceof RequestRejectedException) {
            return refused(Problem.UNREADABLE_BODY.refusal(
                    "The query holds too many parameters, or one that cannot be read."));
        }
        // The actuator reads the Accept header by itself, and does not say what of it cannot be read.
        if (failure instanceof InvalidMimeTypeException) {
            return refused(Problem.NOT_ACCEPTABLE.refusal("The Accept header cannot be read."));
        }
        try {
            ResponseEntity<Object> known = handleException(failure, request);
            return known == null ? failed(Problem.INTERNAL, failure) : known;
        } catch (Exception unknown) {
            return failed(Problem.INTERNAL, unknown);
        }
    }

    private static ResponseEntity<ProblemDetail> refused(Refusal refusal) {
        ProblemDetail detail = detail(refusal.problem(), String.valueOf(refusal.getMessage()));
        if (!refusal.errors().isEmpty()) {
            detail.setProperty("errors", refusal.errors());
        }
        refusal.members().forEach(detail::setProperty);
        LOG.info(
                "refused: {} with {} field errors",
                refusal.problem().slug(),
                refusal.errors().size());
        return answer(detail, new HttpHeaders());
    }

    /** What Spring MVC itself refuses: no such path, method or type, a missing or unreadable parameter. */
    @Override
    protected @Nullable ResponseEntity<Object> handleExceptionInternal(
            Exception failure, @Nullable Object body, HttpHeaders headers, HttpStatusCode status, WebRequest request) {
        Problem problem =
                switch (status.value()) {
                    case 404 -> Problem.NOT_FOUND;
                    case 405 -> Problem.METHOD_NOT_ALLOWED;
                    case 406 -> Problem.NOT_ACCEPTABLE;
                    case 413 -> Problem.TOO_LARGE;
                    case 415 -> Problem.UNSUPPORTED_MEDIA_TYPE;
                    case 503 -> Problem.UNAVAILABLE;
                    default -> status.is4xxClientError() ? Problem.UNREADABLE_BODY : Problem.INTERNAL;
                };
        if (problem.status() >= 500) {
            return wide(failed(problem, failure));
        }
        ProblemDetail detail = detail(problem, problem.title() + ".");
        LOG.info("refused: {}", problem.slug());
        return wide(answer(detail, headers));
    }

    private static ResponseEntity<ProblemDetail> failed(Problem problem, Exception failure) {
        ProblemDetail detail = detail(problem, problem.title() + ".");
        LOG.error("failed: {}", problem.slug(), failure);
        HttpHeaders headers = new HttpHeaders();
        if (problem == Problem.UNAVAILABLE) {
            headers.set(HttpHeaders.RETRY_AFTER, SECONDS_TO_WAIT);
        }
        return answer(detail, headers);
    }

    /** The instance is the request's number: the path, which Spring would put there, may hold a key that identifies. */
    private static ProblemDetail detail(Problem problem, String text) {
        ProblemDetail detail = ProblemDetail.forStatusAndDetail(HttpStatusCode.valueOf(problem.status()), text);
        detail.setType(URI.create("/problems/" + problem.slug()));
        detail.setTitle(problem.title());
        detail.setInstance(URI.create("urn:uuid:" + RequestId.current()));
        detail.setProperty("remedy", problem.remedy());
        return detail;
    }

    private static ResponseEntity<ProblemDetail> answer(ProblemDetail detail, HttpHeaders headers) {
        return ResponseEntity.status(detail.getStatus())
                .headers(headers)
                .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .body(detail);
    }

    private static ResponseEntity<Object> wide(ResponseEntity<ProblemDetail> answer) {
        return ResponseEntity.status(answer.getStatusCode())
                .headers(answer.getHeaders())
                .body(answer.getBody());
    }
}
