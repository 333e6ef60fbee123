package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.core.env.Environment;

/** The five minutes of the README, typed in as they stand there. */
@RegistryTest
class ReadmeTests {

    private static final Pattern SHELL = Pattern.compile("```sh\n(.*?)```", Pattern.DOTALL);

    @Autowired
    private TestNetwork network;

    @Autowired
    private Environment environment;

    @TempDir
    private Path folder;

    @Test
    void theFiveMinutesEndInTheNumberThatTheReadmeSaysAndInSlides() throws Exception {
        assumeTrue(runs("bash", "--version") && runs("curl", "--version"), "bash and curl are not on this machine");
        String readme = Files.readString(Path.of("README.md"));
        String chapter = readme.substring(readme.indexOf("## From a case to a slide"), readme.indexOf("## Reading"));
        List<String> blocks = new ArrayList<>();
        Matcher matcher = SHELL.matcher(chapter);
        while (matcher.find()) {
            blocks.add(matcher.group(1));
        }
        Files.createDirectories(folder.resolve("data"));
        Files.writeString(folder.resolve("data/steward.key"), network.stewardKey());

        String output = bash(String.join("\n", blocks)
                .replace("http://localhost:8080", "http://localhost:" + environment.getProperty("local.server.port")));

        Matcher promised = Pattern.compile("The answer says `(.*?)`").matcher(chapter);
        assertThat(promised.find()).isTrue();
        assertThat(output).contains(promised.group(1));
        assertThat(output).contains("\"role\":\"submitter\"").doesNotContain("/problems/");
        assertThat(Files.readString(folder.resolve("meeting.csv"))).contains("1 entrapment in 85 uses");
        assertThat(Files.readAllBytes(folder.resolve("meeting.pptx"))).startsWith('P', 'K');
    }

    private String bash(String script) throws IOException, InterruptedException {
        Path file = Files.writeString(folder.resolve("five-minutes.sh"), "set -e\n" + script);
        Process process = new ProcessBuilder("bash", file.toString())
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(output).isZero();
        return output;
    }

    private static boolean runs(String... command) throws InterruptedException {
        try {
            return new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException absent) {
            return false;
        }
    }
}
