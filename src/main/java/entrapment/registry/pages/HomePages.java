package entrapment.registry.pages;

import entrapment.registry.access.Viewer;
import entrapment.registry.cases.Cases;
import entrapment.registry.exports.NumberMarks;
import entrapment.registry.reports.Overviews;
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

    private final Overviews overviews;
    private final Cases cases;

    HomePages(Overviews overviews, Cases cases) {
        this.overviews = overviews;
        this.cases = cases;
    }

    @GetMapping("/")
    String home(@AuthenticationPrincipal Viewer viewer, Locale locale, Model model) {
        model.addAttribute("viewer", viewer);
        model.addAttribute("marks", NumberMarks.of(locale));
        model.addAttribute("overview", overviews.of(viewer));
        model.addAttribute("newest", cases.newest(NEWEST, viewer));
        model.addAttribute("cautions", Reports.CAUTIONS);
        return "home";
    }
}
