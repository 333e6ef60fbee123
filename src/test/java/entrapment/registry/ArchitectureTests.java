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
import java.util.Collection;
import java.util.List;
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
                                .doNotHaveSimpleName("Notice")
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
        try {
            Class<?> info = Class.forName(packageName + ".package-info");
            ApplicationModule module = info.getPackage().getAnnotation(ApplicationModule.class);
            return module != null && !List.of(module.allowedDependencies()).contains(ApplicationModule.OPEN_TOKEN);
        } catch (ClassNotFoundException absent) {
            return false;
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
}
