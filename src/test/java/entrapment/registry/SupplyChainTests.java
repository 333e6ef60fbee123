package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The list of what the jar is made of, as the build writes it. */
class SupplyChainTests {

    @Test
    void namesEveryLibraryWithItsVersionAndHashAndNothingThatDiffersFromBuildToBuild() throws IOException {
        JsonNode list;
        try (InputStream file = SupplyChainTests.class.getResourceAsStream("/META-INF/sbom/application.cdx.json")) {
            list = JsonMapper.shared().readTree(Objects.requireNonNull(file));
        }

        assertThat(list.required("bomFormat").asString()).isEqualTo("CycloneDX");
        assertThat(list.at("/metadata/component/name").asString()).isEqualTo("entrapment-registry");
        assertThat(list.at("/metadata/timestamp").asString("2026-01-01T00:00:00Z"))
                .isEqualTo("2026-01-01T00:00:00Z");
        assertThat(list.required("components").valueStream())
                .hasSizeGreaterThan(50)
                .allSatisfy(library -> {
                    assertThat(library.required("version").asString())
                            .matches("[0-9].*")
                            .doesNotContain("SNAPSHOT");
                    assertThat(library.required("hashes").isEmpty()).isFalse();
                })
                .extracting(library -> library.required("name").asString())
                .contains("postgresql", "spring-boot", "tomcat-embed-core", "fastcsv")
                .doesNotContain("archunit", "testcontainers");
    }
}
