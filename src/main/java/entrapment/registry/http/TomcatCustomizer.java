package entrapment.registry.http;

import entrapment.registry.intake.Problem;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ErrorReportValve;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;

/** What the web container does before the service sees a request, where application.properties has no setting for it. */
@Component
class TomcatCustomizer implements WebServerFactoryCustomizer<TomcatServletWebServerFactory> {

    private static final Logger LOG = LoggerFactory.getLogger(TomcatCustomizer.class);
    private static final String MOST_HEADERS = "50";

    private static final String PROBLEM = """
            {"type":"/problems/%s","title":"%s","status":%d,"detail":"%s.","instance":"urn:uuid:%s","remedy":"%s"}""";

    @Override
    public void customize(TomcatServletWebServerFactory factory) {
        factory.addConnectorCustomizers(connector -> {
            connector.setProperty("maxHeaderCount", MOST_HEADERS);
            // A caller who waits with a large body is told to send it when it is wanted, not before the key is checked.
            connector.setProperty("continueResponseTiming", "onRead");
        });
        factory.addContextCustomizers(
                context -> context.getParent().getPipeline().addValve(new ContainerProblem()));
    }

    /** The answer to a request that never reaches a filter; the container's own page would say what it could not read. */
    private static final class ContainerProblem extends ErrorReportValve {

        @Override
        protected void report(Request request, Response response, @Nullable Throwable failure) {
            if (response.getStatus() < 400 || response.getContentWritten() > 0 || !response.setErrorReported()) {
                return;
            }
            // The container says 501 and 505 of a coding or a version that it does not know; the caller can fix that.
            Problem problem = response.getStatus() == 500 ? Problem.INTERNAL : Problem.UNREADABLE_BODY;
            String id = UUID.randomUUID().toString();
            LOG.info("{} before any filter: {}", response.getStatus(), id);
            response.setStatus(problem.status());
            response.setHeader(RequestId.HEADER, id);
            SecurityHeaders.write(response, true);
            response.setContentType(MediaType.APPLICATION_PROBLEM_JSON_VALUE);
            response.setCharacterEncoding(StandardCharsets.UTF_8);
            try {
                response.getReporter()
                        .write(PROBLEM.formatted(
                                problem.slug(),
                                problem.title(),
                                problem.status(),
                                problem.title(),
                                id,
                                problem.remedy()));
                response.finishResponse();
            } catch (IOException gone) {
                LOG.debug("nobody waits for the answer any more", gone);
            }
        }
    }
}
