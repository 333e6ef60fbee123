package entrapment.registry;

import org.junit.jupiter.api.Test;
import org.springframework.modulith.core.ApplicationModules;

class ArchitectureTests {

    @Test
    void modulesKeepToTheirArrows() {
        ApplicationModules.of(RegistryApplication.class).verify();
    }
}
