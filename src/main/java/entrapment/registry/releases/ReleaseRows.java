package entrapment.registry.releases;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Viewer;
import entrapment.registry.releases.Sum.Measure;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** The kept releases as rows. Nothing is ever changed or taken back. */
@Component
class ReleaseRows {

    /** Any constant does; it names the lock that lets one release be made at a time, and no submission wait. */
    private static final long LOCK = 0x0E47_4AAL;

    private static final String ALL = """
            select number, made_at, cut_revision, cut_at, first_year, through_year, smallest_count, audited,
                hidden_primary, hidden_complementary, smallest_range, smallest_maximum
            from outside_release
            order by number""";

    private static final String FIGURES = """
            select release, measure, device_class, harm, first_year, last_year, value
            from outside_figure
            where release = :release
            order by position""";

    private static final String KEEP = """
            insert into outside_release (number, made_at, key_id, cut_revision, cut_at, first_year, through_year,
                smallest_count, audited, hidden_primary, hidden_complementary, smallest_range, smallest_maximum)
            values (:number, :madeAt, :keyId, :cutRevision, :cutAt, :firstYear, :throughYear,
                :smallestCount, :audited, :hiddenPrimary, :hiddenComplementary, :smallestRange, :smallestMaximum)""";

    private static final String KEEP_FIGURE = """
            insert into outside_figure (release, position, measure, device_class, harm, first_year, last_year, value)
            values (:release, :position, :measure, :deviceClass, :harm, :firstYear, :lastYear, :value)""";

    private final JdbcClient jdbc;

    ReleaseRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Waits until no other release is being made, and keeps others waiting until this transaction ends. */
    void lock() {
        jdbc.sql("select pg_advisory_xact_lock(:lock)")
                .param("lock", LOCK)
                .query((row, number) -> 0)
                .list();
    }

    /** Every release, oldest first. */
    List<OutsideRelease> all() {
        return jdbc.sql(ALL).query((row, number) -> release(row)).list();
    }

    private OutsideRelease release(ResultSet row) throws SQLException {
        int number = row.getInt("number");
        Map<Sum, @Nullable Long> figures = figures(number);
        return new OutsideRelease(
                number,
                row.getObject("made_at", OffsetDateTime.class).toInstant(),
                new DataCut(
                        row.getLong("cut_revision"),
                        row.getObject("cut_at", OffsetDateTime.class).toInstant()),
                row.getInt("first_year"),
                row.getInt("through_year"),
                row.getInt("smallest_count"),
                figures,
                new Audit(
                        IntStream.rangeClosed(1, number).boxed().toList(),
                        row.getInt("audited"),
                        row.getInt("hidden_primary"),
                        row.getInt("hidden_complementary"),
                        (int) figures.values().stream().filter(Objects::nonNull).count(),
                        row.getObject("smallest_range", Long.class),
                        row.getObject("smallest_maximum", Long.class),
                        true,
                        List.of()));
    }

    private Map<Sum, @Nullable Long> figures(int release) {
        Map<Sum, @Nullable Long> figures = new LinkedHashMap<>();
        jdbc.sql(FIGURES).param("release", release).query(row -> {
            figures.put(
                    new Sum(
                            Measure.valueOf(row.getString("measure").toUpperCase(Locale.ROOT)),
                            row.getString("device_class"),
                            row.getString("harm"),
                            row.getInt("first_year"),
                            row.getInt("last_year")),
                    row.getObject("value", Long.class));
        });
        return figures;
    }

    void keep(OutsideRelease release, Viewer viewer) {
        Audit audit = release.audit();
        jdbc.sql(KEEP)
                .param("number", release.number())
                .param("madeAt", OffsetDateTime.ofInstant(release.madeAt(), ZoneOffset.UTC))
                .param("keyId", viewer.keyId())
                .param("cutRevision", release.dataCut().revision())
                .param(
                        "cutAt",
                        OffsetDateTime.ofInstant(
                                Objects.requireNonNull(release.dataCut().at()), ZoneOffset.UTC))
                .param("firstYear", release.firstYear())
                .param("throughYear", release.throughYear())
                .param("smallestCount", release.smallestCount())
                .param("audited", audit.audited())
                .param("hiddenPrimary", audit.hiddenPrimary())
                .param("hiddenComplementary", audit.hiddenComplementary())
                .param("smallestRange", audit.smallestRange())
                .param("smallestMaximum", audit.smallestMaximum())
                .update();
        int position = 0;
        for (Map.Entry<Sum, @Nullable Long> figure : release.figures().entrySet()) {
            Sum sum = figure.getKey();
            jdbc.sql(KEEP_FIGURE)
                    .param("release", release.number())
                    .param("position", position++)
                    .param("measure", sum.measure().name().toLowerCase(Locale.ROOT))
                    .param("deviceClass", sum.deviceClass())
                    .param("harm", sum.harm())
                    .param("firstYear", sum.firstYear())
                    .param("lastYear", sum.lastYear())
                    .param("value", figure.getValue())
                    .update();
        }
    }
}
