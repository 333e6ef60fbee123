package entrapment.registry.releases;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Method;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A report as far as a release prints it.
 *
 * @param groups in the order of the codes they are split by
 * @param table the same for other programs
 */
public record OutsideReport(
        String report,
        String audience,
        String question,
        int releaseNumber,
        DataCut dataCut,
        List<Integer> years,
        int smallestCount,
        List<String> by,
        double confidence,
        Method method,
        List<? extends Record> groups,
        List<String> notes,
        List<String> cautions,
        @JsonIgnore Table table) {

    static OutsideReport of(
            String report,
            String question,
            OutsideRelease release,
            List<String> by,
            List<? extends Record> groups,
            List<String> notes,
            List<String> columns,
            List<List<@Nullable Object>> rows) {
        List<String> headings = new ArrayList<>(by);
        headings.addAll(columns);
        headings.addAll(List.of(
                "suppressed",
                "estimate",
                "lower",
                "upper",
                "perThousand",
                "perThousandLower",
                "perThousandUpper",
                "sentence"));
        return new OutsideReport(
                report,
                "outside",
                question,
                release.number(),
                release.dataCut(),
                release.years(),
                release.smallestCount(),
                by,
                Confidence.DEFAULT.level(),
                IntervalMethod.WILSON.method(),
                List.copyOf(groups),
                notes,
                Reports.CAUTIONS,
                new Table(Words.comments(question, release, notes), headings, rows));
    }

    /** The device classes that groups are split by; null for all of them together. */
    static List<@Nullable String> deviceClasses(List<String> by) {
        List<@Nullable String> classes = new ArrayList<>();
        if (by.contains("deviceClass")) {
            Stream.of(DeviceClass.values()).map(Code::code).forEach(classes::add);
        } else {
            classes.add(null);
        }
        return classes;
    }

    /** A row of the table, in the order of its headings. */
    static List<@Nullable Object> row(
            Collection<String> names,
            @Nullable Long events,
            @Nullable Long of,
            boolean suppressed,
            @Nullable Double estimate,
            @Nullable Double lower,
            @Nullable Double upper,
            String sentence) {
        List<@Nullable Object> row = new ArrayList<>(names);
        row.add(Words.cell(events));
        row.add(Words.cell(of));
        row.add(suppressed);
        row.add(estimate);
        row.add(lower);
        row.add(upper);
        row.add(estimate == null ? null : estimate * 1000);
        row.add(lower == null ? null : lower * 1000);
        row.add(upper == null ? null : upper * 1000);
        row.add(sentence);
        return row;
    }
}
