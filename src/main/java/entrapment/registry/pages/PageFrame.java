package entrapment.registry.pages;

import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.Question;
import entrapment.registry.vocabulary.Labels;
import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;

/** What stands around every page: who is signed in, where one is, and how numbers are written for this reader. */
@Component("frame")
public class PageFrame {

    private final Centres centres;
    private final Reports reports;

    PageFrame(Centres centres, Reports reports) {
        this.centres = centres;
        this.reports = reports;
    }

    /** Who is signed in; null for nobody. */
    public @Nullable Viewer viewer() {
        Authentication who = SecurityContextHolder.getContext().getAuthentication();
        return who != null && who.getPrincipal() instanceof Viewer viewer ? viewer : null;
    }

    /** The name of the viewer's centre; of the steward, and of nobody, null. */
    public @Nullable String centre() {
        Viewer viewer = viewer();
        return viewer == null || viewer.centre() == null
                ? null
                : centres.list(viewer).stream().map(Centre::name).findFirst().orElse(viewer.centre());
    }

    /** The names of all questions, in the order of the menu. */
    public List<String> questions() {
        return reports.questions().stream().map(Question::name).toList();
    }

    /** Whether the page is the one at this path, or below it. */
    public boolean here(String path) {
        return RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes attributes
                && under(attributes.getRequest(), path);
    }

    private static boolean under(HttpServletRequest request, String path) {
        String asked = request.getRequestURI();
        return asked.equals(path) || (path.length() > 1 && asked.startsWith(path + "/"));
    }

    /** What people read in the place of a field's name. */
    public String field(String name) {
        return Labels.field(name);
    }

    /** A text whose numbers get the decimal mark and the grouping of the reader's language. */
    public String local(@Nullable String text) {
        return text == null
                ? ""
                : NumberMarks.of(LocaleContextHolder.getLocale()).in(text);
    }
}
