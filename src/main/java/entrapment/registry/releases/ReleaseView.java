package entrapment.registry.releases;

import com.fasterxml.jackson.annotation.JsonIgnore;
import entrapment.registry.access.DataCut;
import entrapment.registry.exports.Table;
import entrapment.registry.reports.Reports;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A release as the steward sees it.
 *
 * @param years the calendar years it covers
 * @param smallestCount k: counts of 1 to k−1 are hidden
 * @param audit not for the outside
 */
public record ReleaseView(
        int number,
        Instant madeAt,
        DataCut dataCut,
        List<Integer> years,
        int smallestCount,
        Audit audit,
        List<Figure> figures,
        List<String> notes,
        List<String> cautions,
        @JsonIgnore List<String> comments) {

    /**
     * One number.
     *
     * @param measure {@code events} or {@code uses}
     * @param deviceClass a code, or {@code any} for all together
     * @param harm a code, or {@code any}
     * @param value null where it is hidden
     */
    public record Figure(
            String measure,
            String deviceClass,
            String harm,
            int firstYear,
            int lastYear,
            @Nullable Long value,
            boolean suppressed) {}

    static ReleaseView of(OutsideRelease release, List<OutsideRelease> kept) {
        List<Figure> figures = new ArrayList<>();
        release.figures().forEach((sum, value) -> {
            String deviceClass = sum.deviceClass();
            String harm = sum.harm();
            figures.add(new Figure(
                    sum.measure().name().toLowerCase(Locale.ROOT),
                    deviceClass == null ? Words.ANY : deviceClass,
                    harm == null ? Words.ANY : harm,
                    sum.firstYear(),
                    sum.lastYear(),
                    value,
                    value == null));
        });
        List<String> notes = Words.notes(release, kept);
        return new ReleaseView(
                release.number(),
                release.madeAt(),
                release.dataCut(),
                release.years(),
                release.smallestCount(),
                release.audit(),
                List.copyOf(figures),
                notes,
                Reports.CAUTIONS,
                Words.comments("What was released?", release, notes));
    }

    /** The figures, without the audit. */
    public Table table() {
        return new Table(
                comments,
                List.of("measure", "deviceClass", "harm", "firstYear", "lastYear", "value", "suppressed"),
                figures.stream()
                        .map(figure -> List.<@Nullable Object>of(
                                figure.measure(),
                                figure.deviceClass(),
                                figure.harm(),
                                (long) figure.firstYear(),
                                (long) figure.lastYear(),
                                Words.cell(figure.value()),
                                figure.suppressed()))
                        .toList());
    }
}
