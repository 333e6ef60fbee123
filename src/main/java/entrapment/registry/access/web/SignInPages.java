package entrapment.registry.access.web;

import entrapment.registry.access.AccessKeys;
import entrapment.registry.access.Viewer;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.security.web.context.HttpSessionSecurityContextRepository;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.util.UriComponentsBuilder;

/** Where a person shows a key once and has a session from then on. */
@Controller
@RequestMapping(SignInPages.PATH)
class SignInPages {

    static final String PATH = "/sign-in";

    /** Where to go after signing in: a path of this service and nothing else, so that no link leads out by it. */
    private static final String INSIDE = "/(?![/\\\\])[\\x21-\\x5B\\x5D-\\x7E]{0,1000}";

    private final AccessKeys keys;
    private final SingleSignOn signOn;
    private final SecurityContextRepository session = new HttpSessionSecurityContextRepository();

    SignInPages(AccessKeys keys, SingleSignOn signOn) {
        this.keys = keys;
        this.signOn = signOn;
    }

    /** The page with the way back to what was asked for. */
    static String backTo(HttpServletRequest request) {
        String asked =
                request.getRequestURI() + (request.getQueryString() == null ? "" : "?" + request.getQueryString());
        return asked.equals("/") || !asked.matches(INSIDE)
                ? PATH
                : UriComponentsBuilder.fromPath(PATH)
                        .queryParam("next", "{next}")
                        .encode()
                        .buildAndExpand(asked)
                        .toUriString();
    }

    @GetMapping
    String show(
            @RequestParam(required = false) @Nullable String next,
            @RequestParam(required = false) @Nullable String left,
            @AuthenticationPrincipal @Nullable Viewer viewer,
            Model model) {
        return viewer == null ? page(next, left == null ? null : "left", model) : "redirect:" + inside(next);
    }

    @PostMapping
    String signIn(
            @RequestParam(defaultValue = "") String key,
            @RequestParam(required = false) @Nullable String next,
            HttpServletRequest request,
            HttpServletResponse response,
            Model model) {
        Optional<Viewer> viewer = keys.viewer(key.strip());
        if (viewer.isEmpty()) {
            response.setStatus(HttpStatus.UNAUTHORIZED.value());
            return page(next, "refused", model);
        }
        // The number under which the page was asked for is known to whoever set it.
        request.getSession();
        request.changeSessionId();
        session.saveContext(KeyFilter.contextOf(viewer.get()), request, response);
        return "redirect:" + inside(next);
    }

    private String page(@Nullable String next, @Nullable String said, Model model) {
        model.addAttribute("next", inside(next));
        model.addAttribute("said", said);
        model.addAttribute("singleSignOn", signOn.signsIn());
        return "access/sign-in";
    }

    private static String inside(@Nullable String next) {
        return next != null && next.matches(INSIDE) ? next : "/";
    }
}
