package entrapment.registry.pages;

import entrapment.registry.cases.CaseRule;
import entrapment.registry.cases.IncidentSign;
import entrapment.registry.exports.Figure;
import entrapment.registry.exports.NumberText;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Method;
import entrapment.registry.vocabulary.Field;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.core.io.ClassPathResource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.RequestMapping;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** What the words mean, how each number is computed, and what may be sent; for every role. */
@Controller
@RequestMapping("/methods")
class MethodPages {

    /** Written by MethodsPageTests from the reference values, which are no part of the service. */
    private static final String CHECKS = "methods.json";

    private static final Map<String, Method> METHODS = Stream.of(Calculation.values())
            .map(Calculation::method)
            .collect(Collectors.toUnmodifiableMap(Method::code, Function.identity()));

    private final List<Check> checks;
    private final Settings settings;

    /**
     * What a calculation is held against in every build.
     *
     * @param r functions that compute the same
     */
    record Check(String method, List<String> r, List<Reference> references) {}

    /**
     * One reference result.
     *
     * @param published how many of its numbers were published
     */
    record Reference(String id, String source, int published) {}

    MethodPages(JsonMapper json, Settings settings) throws IOException {
        try (InputStream file = new ClassPathResource(CHECKS).getInputStream()) {
            this.checks = json.readValue(file, new TypeReference<List<Check>>() {});
        }
        this.settings = settings;
    }

    @ModelAttribute("cautions")
    List<String> cautions() {
        return Reports.CAUTIONS;
    }

    @GetMapping
    String index(Model model) {
        model.addAttribute("calculations", METHODS.size());
        return "methods/index";
    }

    @GetMapping("/vocabulary")
    String vocabulary(Model model) {
        model.addAttribute("fields", Field.coded());
        return "methods/vocabulary";
    }

    @GetMapping("/statistics")
    String statistics(Model model) {
        model.addAttribute("checks", checks);
        model.addAttribute("methods", METHODS);
        return "methods/statistics";
    }

    @GetMapping("/figures")
    String figures(Model model) {
        model.addAttribute("points", Figure.Mark.values());
        model.addAttribute("nearestRatio", NumberText.exact(1 / Figure.FARTHEST_RATIO));
        model.addAttribute("farthestRatio", NumberText.exact(Figure.FARTHEST_RATIO));
        model.addAttribute(
                "kinds",
                Stream.of(Figure.Kind.values()).flatMap(MethodPages::kinds).toList());
        return "methods/figures";
    }

    /** Control charts are of three kinds, each read in its own way. */
    private static Stream<String> kinds(Figure.Kind kind) {
        String code = kind.name().toLowerCase(Locale.ROOT);
        return kind == Figure.Kind.CONTROL ? Stream.of(code, "p-chart", "g-chart", "cusum") : Stream.of(code);
    }

    @GetMapping("/rules")
    String rules(Model model) {
        model.addAttribute("rules", Stream.of(CaseRule.values()).collect(Collectors.groupingBy(rule -> rule.kind()
                .name()
                .toLowerCase(Locale.ROOT))));
        model.addAttribute("signs", IncidentSign.values());
        return "methods/rules";
    }

    @GetMapping("/format")
    String format() {
        return "methods/format";
    }

    @GetMapping("/privacy")
    String privacy(Model model) {
        model.addAttribute("settings", settings);
        return "methods/privacy";
    }
}
