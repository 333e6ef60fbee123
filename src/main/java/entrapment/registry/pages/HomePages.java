package entrapment.registry.pages;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.Cases;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.reports.Reports;
import java.util.Locale;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** Where everybody arrives: what the figures are, what needs attention, what came in. */
@Controller
class HomePages {

    private static final int NEWEST = 8;

    private final Reports reports;
    private final Cases cases;

    HomePages(Reports reports, Cases cases) {
        this.reports = reports;
        this.cases = cases;
    }

    @GetMapping("/")
    String home(@AuthenticationPrincipal Viewer viewer, Locale locale, Model model) {
        model.addAttribute("viewer", viewer);
        model.addAttribute("marks", NumberMarks.of(locale));
        model.addAttribute("overview", reports.overview(viewer));
        model.addAttribute("newest", cases.newest(NEWEST, viewer));
        model.addAttribute("cautions", Reports.CAUTIONS);
        return "home";
    }
}
