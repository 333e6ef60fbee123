package entrapment.registry;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamReader;

/**
 * Prints which classes of tests took longest, from the reports that Surefire leaves. The build runs it after the tests;
 * it stands beside them and uses nothing but Java, and so needs no more than they do.
 */
public final class SlowestClasses {

    private static final int SHOWN = 10;

    private SlowestClasses() {}

    private record Run(String name, double seconds) {}

    /**
     * Prints them.
     *
     * @param arguments the folder of the reports; the moment at which the build began, since older reports lie there too
     */
    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        Instant began = OffsetDateTime.parse(arguments[1]).toInstant();
        if (!Files.isDirectory(folder)) {
            return;
        }
        List<Run> runs = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.filter(each -> each.getFileName().toString().matches("TEST-.*\\.xml"))
                    .toList()) {
                if (!Files.getLastModifiedTime(file).toInstant().isBefore(began)) {
                    runs.add(read(file));
                }
            }
        }
        runs.sort(Comparator.comparingDouble(Run::seconds).reversed().thenComparing(Run::name));
        double all = runs.stream().mapToDouble(Run::seconds).sum();
        System.out.printf(Locale.ROOT, "The slowest of %d classes, which took %.0f s in all:%n", runs.size(), all);
        runs.stream()
                .limit(SHOWN)
                .forEach(run -> System.out.printf(Locale.ROOT, "%7.1f s  %s%n", run.seconds(), run.name()));
    }

    /** The attributes of the first element; what the tests printed follows it, and may be long. */
    private static Run read(Path file) throws Exception {
        try (var content = Files.newInputStream(file)) {
            XMLStreamReader report = XMLInputFactory.newFactory().createXMLStreamReader(content);
            report.nextTag();
            return new Run(
                    report.getAttributeValue(null, "name"), Double.parseDouble(report.getAttributeValue(null, "time")));
        }
    }
}
