package entrapment.registry;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.GeneralCodingRules;
import jakarta.persistence.Entity;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.data.repository.Repository;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.modulith.ApplicationModule;
import org.springframework.modulith.core.ApplicationModules;
import org.springframework.modulith.core.Violations;
import org.springframework.web.bind.annotation.RestController;

/** The rooms and arrows of the house, and that each rule bites: the package {@code planted} breaks them on purpose. */
class ArchitectureTests {

    private static final JavaClasses OURS = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("entrapment.registry");

    private static final JavaClasses PLANTED = new ClassFileImporter().importPackages("planted");

    private static final DescribedPredicate<JavaAccess<?>> THE_MACHINES_CLOCK = DescribedPredicate.describe(
            "ask the machine for the time",
            access -> access.getTarget().getName().equals("now")
                    && access.getTarget().getOwner().getPackageName().equals("java.time")
                    && access.getTarget().getFullName().endsWith("now()"));

    /** Each rule that the planted package breaks, by what it is about. */
    static Collection<Named<ArchRule>> rules() {
        return List.of(
                Named.of(
                        "statistics are plain Java",
                        classes()
                                .that()
                                .resideInAPackage("..stats..")
                                .should()
                                .onlyDependOnClassesThat(resideInAPackage("..stats..")
                                        .or(resideInAPackage("java.."))
                                        .or(resideInAPackage("org.apache.commons.math3.."))
                                        .or(resideInAPackage("org.jspecify.annotations..")))),
                Named.of(
                        "slides are drawn in their own room alone",
                        noClasses()
                                .that()
                                .resideOutsideOfPackage("..exports.slides..")
                                .should()
                                .dependOnClassesThat()
                                .resideInAnyPackage(
                                        "org.apache.poi..", "org.apache.xmlbeans..", "org.openxmlformats..")),
                Named.of(
                        "of slides the others see a deck, its slides and their two writers",
                        classes()
                                .that()
                                .resideInAPackage("..exports.slides..")
                                .and()
                                .arePublic()
                                .should()
                                .haveNameMatching(".*\\.(Deck|Slide|PptxWriter|SlideCsv)")),
                Named.of(
                        "controllers are package-private",
                        classes()
                                .that()
                                .areAnnotatedWith(RestController.class)
                                .should()
                                .notBePublic()),
                Named.of("nothing is injected into fields", GeneralCodingRules.NO_CLASSES_SHOULD_USE_FIELD_INJECTION),
                Named.of(
                        "nothing but the notice at the start writes to standard streams",
                        noClasses()
                                .that()
                                .doNotHaveSimpleName("StartupConsole")
                                .should(GeneralCodingRules.ACCESS_STANDARD_STREAMS)),
                Named.of(
                        "the time comes from a clock that is given",
                        noClasses().should().accessTargetWhere(THE_MACHINES_CLOCK)));
    }

    @Test
    void modulesKeepToTheirArrows() {
        ApplicationModules.of(RegistryApplication.class).verify();
    }

    @Test
    void anUndeclaredArrowIsFound() {
        ApplicationModules planted = ApplicationModules.of("planted", new ImportOption.OnlyIncludeTests());

        assertThatThrownBy(planted::verify)
                .isInstanceOf(Violations.class)
                .hasMessageContaining("Module 'asking' depends on module 'answering'");
    }

    @Test
    void everyModuleDeclaresItsArrows() {
        assertThat(ApplicationModules.of(RegistryApplication.class).stream())
                .filteredOn(module -> !module.getIdentifier().toString().equals("stats"))
                .isNotEmpty()
                .allSatisfy(
                        module -> assertThat(declared(module.getBasePackage().getName()))
                                .as("arrows of %s", module.getIdentifier())
                                .isTrue());
        assertThat(declared("planted.answering")).isFalse();
    }

    private static boolean declared(String packageName) {
        return annotation(packageName)
                .filter(module -> !List.of(module.allowedDependencies()).contains(ApplicationModule.OPEN_TOKEN))
                .isPresent();
    }

    private static Optional<ApplicationModule> annotation(String packageName) {
        try {
            return Optional.ofNullable(
                    Class.forName(packageName + ".package-info").getPackage().getAnnotation(ApplicationModule.class));
        } catch (ClassNotFoundException absent) {
            return Optional.empty();
        }
    }

    @ParameterizedTest
    @MethodSource("rules")
    void holds(ArchRule rule) {
        rule.check(OURS);
    }

    @ParameterizedTest
    @MethodSource("rules")
    void bites(ArchRule rule) {
        assertThat(rule.evaluate(PLANTED).hasViolation()).isTrue();
    }

    @Test
    void entitiesAndRepositoriesStayInTheirModule() {
        classes().that().areAnnotatedWith(Entity.class).should().notBePublic().check(OURS);
        classes()
                .that()
                .areAssignableTo(Repository.class)
                .should()
                .notBePublic()
                .check(OURS);
    }

    @Test
    void controllersAskDoorsAndNotTheDatabase() {
        noClasses()
                .that()
                .resideInAPackage("..web..")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(JdbcClient.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(Repository.class)
                .check(OURS);
    }

    /** The arrows as the modules declare them, drawn; {@code -DupdateExpected=true} draws them again. */
    @Test
    void developersMdShowsTheDeclaredArrows() throws IOException {
        StringBuilder drawing = new StringBuilder("```mermaid\nflowchart LR\n");
        ApplicationModules.of(RegistryApplication.class).stream()
                .map(module -> module.getBasePackage().getName())
                .sorted()
                .forEach(name -> arrows(name)
                        .forEach(to -> drawing.append(
                                "  %s --> %s\n".formatted(name.substring(name.lastIndexOf('.') + 1), to))));
        drawing.append("```\n");
        Path file = Path.of("DEVELOPERS.md");
        String page = Files.readString(file);
        int from = page.indexOf("```mermaid");
        int to = page.indexOf("<!-- /arrows -->");
        String drawn = page.substring(0, from) + drawing + page.substring(to);
        if (Boolean.getBoolean("updateExpected")) {
            Files.writeString(file, drawn);
        }

        assertThat(page).isEqualTo(drawn);
    }

    private static List<String> arrows(String packageName) {
        return annotation(packageName)
                .map(module -> Stream.of(module.allowedDependencies())
                        .map(arrow -> arrow.replaceFirst(" ::.*", ""))
                        .distinct()
                        .toList())
                .orElse(List.of());
    }
}
