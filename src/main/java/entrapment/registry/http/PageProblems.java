package entrapment.registry.http;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ProblemDetail;
import org.springframework.http.ResponseEntity;
import org.springframework.web.context.request.ServletWebRequest;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.servlet.ModelAndView;
import org.springframework.web.servlet.View;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import org.thymeleaf.spring6.view.ThymeleafViewResolver;

/** The same problems as {@link ApiProblems}, as a page, for whoever asked for a page. */
@Configuration(proxyBeanMethods = false)
class PageProblems implements WebMvcConfigurer {

    private static final Logger LOG = LoggerFactory.getLogger(PageProblems.class);

    private final ApiProblems problems;
    private final ThymeleafViewResolver views;

    PageProblems(ApiProblems problems, ThymeleafViewResolver views) {
        this.problems = problems;
        this.views = views;
    }

    @Override
    public void extendHandlerExceptionResolvers(List<HandlerExceptionResolver> resolvers) {
        resolvers.add(
                0,
                (request, response, handler, failure) -> wantsPage(request) ? page(request, response, failure) : null);
    }

    private static boolean wantsPage(HttpServletRequest request) {
        String accept = request.getHeader(HttpHeaders.ACCEPT);
        return accept != null
                && accept.contains(MediaType.TEXT_HTML_VALUE)
                && !request.getRequestURI().startsWith("/api")
                && !request.getRequestURI().startsWith("/actuator");
    }

    /** Written here and now: who asks may be a filter, which renders nothing. */
    private @Nullable ModelAndView page(HttpServletRequest request, HttpServletResponse response, Exception failure) {
        ResponseEntity<?> answer = problems.answerTo(failure, new ServletWebRequest(request, response));
        if (!(answer.getBody() instanceof ProblemDetail problem) || response.isCommitted()) {
            return null;
        }
        try {
            View view = views.resolveViewName("problem", Locale.ENGLISH);
            response.setStatus(answer.getStatusCode().value());
            answer.getHeaders().forEach((name, values) -> values.forEach(value -> response.setHeader(name, value)));
            response.setContentType("text/html;charset=UTF-8");
            if (view != null) {
                view.render(Map.of("problem", problem), request, response);
            }
            return new ModelAndView();
        } catch (Exception broken) {
            LOG.error("the page of a problem failed", broken);
            return null;
        }
    }
}
