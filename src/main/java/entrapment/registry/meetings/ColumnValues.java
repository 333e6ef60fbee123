package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;

/** Codes and moments as columns hold them. */
final class ColumnValues {

    private ColumnValues() {}

    static @Nullable String code(@Nullable Code value) {
        return value == null ? null : value.code();
    }

    static <E extends Enum<E> & Code> @Nullable E ofNullable(Class<E> type, @Nullable String code) {
        return code == null ? null : of(type, code);
    }

    static <E extends Enum<E> & Code> E of(Class<E> type, String code) {
        return Code.of(type, code).orElseThrow();
    }

    static OffsetDateTime utc(Instant instant) {
        return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
    }

    static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
