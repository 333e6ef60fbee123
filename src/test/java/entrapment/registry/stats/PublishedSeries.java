package entrapment.registry.stats;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Figures of the device-entrapment literature with the counts behind them: {@code reference/published-series.csv}.
 *
 * <p>Counts and printed text are the papers', as far as their abstracts show them; {@code counts} says {@code inferred}
 * where a count was worked out from a printed percentage. The limits, per cent, were computed from those counts with
 * SciPy and are in no paper. {@code percentage} and {@code interval} say how the paper came to what it printed.
 */
final class PublishedSeries {

    private static final Pattern PRINTED = Pattern.compile("([0-9.]+) %(?:, CI ([0-9.]+)-([0-9.]+))?");

    private PublishedSeries() {}

    /** How a printed percentage follows from the counts. */
    enum Percentage {
        ROUNDED,
        /** Cut off where rounding would have gone up. */
        TRUNCATED,
        /** Neither: the paper contradicts itself. */
        OFF
    }

    /** How a printed interval follows from the counts. */
    enum Kind {
        /** Clopper–Pearson. */
        EXACT,
        /** Not of the counts alone. */
        RANDOM_EFFECTS
    }

    /** Two limits in per cent as text, so that their decimals say how far they hold. */
    record Digits(BigDecimal lower, BigDecimal upper) {

        private static @Nullable Digits of(@Nullable String lower, @Nullable String upper) {
            return lower == null || lower.isEmpty()
                    ? null
                    : new Digits(new BigDecimal(lower), new BigDecimal(Objects.requireNonNull(upper)));
        }

        /** An interval rounded as these digits are. */
        Digits like(Interval interval) {
            return new Digits(rounded(Limits.lower(interval), lower), rounded(Limits.upper(interval), upper));
        }

        private static BigDecimal rounded(double proportion, BigDecimal like) {
            return new BigDecimal(proportion).movePointRight(2).setScale(like.scale(), RoundingMode.HALF_UP);
        }
    }

    /** One printed figure. */
    record Figure(
            String id,
            String series,
            String what,
            boolean inferred,
            Proportion proportion,
            @Nullable BigDecimal printed,
            @Nullable Digits printedInterval,
            @Nullable Digits wilson,
            @Nullable Digits exact,
            @Nullable Percentage percentage,
            @Nullable Kind interval) {

        private static Figure of(NamedCsvRecord row) {
            Matcher printed = PRINTED.matcher(row.getField("printed"));
            boolean any = printed.matches();
            if (!any && !row.getField("printed").isEmpty()) {
                throw new IllegalArgumentException("cannot read " + row);
            }
            return new Figure(
                    row.getField("id"),
                    row.getField("series"),
                    row.getField("what"),
                    row.getField("counts").equals("inferred"),
                    new Proportion(Long.parseLong(row.getField("events")), Long.parseLong(row.getField("of"))),
                    any ? new BigDecimal(printed.group(1)) : null,
                    any ? Digits.of(printed.group(2), printed.group(3)) : null,
                    Digits.of(row.getField("wilsonLower"), row.getField("wilsonUpper")),
                    Digits.of(row.getField("exactLower"), row.getField("exactUpper")),
                    code(Percentage.class, row.getField("percentage")),
                    code(Kind.class, row.getField("interval")));
        }

        private static <E extends Enum<E>> @Nullable E code(Class<E> type, String text) {
            return text.isEmpty()
                    ? null
                    : Enum.valueOf(type, text.toUpperCase(Locale.ROOT).replace(' ', '_'));
        }

        long events() {
            return proportion.events();
        }

        /** Our percentage as the paper would print it, had it rounded. */
        BigDecimal rounded() {
            return percent(RoundingMode.HALF_UP);
        }

        /** Our percentage cut off at the paper's decimals. */
        BigDecimal truncated() {
            return percent(RoundingMode.DOWN);
        }

        /** From the counts and not from a double, which may lie on the wrong side of a half. */
        private BigDecimal percent(RoundingMode mode) {
            return BigDecimal.valueOf(100 * proportion.events())
                    .divide(BigDecimal.valueOf(proportion.of()), MathContext.DECIMAL64)
                    .setScale(Objects.requireNonNull(printed).scale(), mode);
        }

        Interval limits(IntervalMethod method) {
            return proportion.interval(method, Confidence.DEFAULT);
        }

        @Override
        public String toString() {
            return id + " " + what + " " + proportion.events() + "/" + proportion.of();
        }
    }

    static List<Figure> figures() {
        try (InputStream file = PublishedSeries.class.getResourceAsStream("/reference/published-series.csv");
                CsvReader<NamedCsvRecord> rows = CsvReader.builder()
                        .ofNamedCsvRecord(
                                new InputStreamReader(Objects.requireNonNull(file), StandardCharsets.UTF_8))) {
            return rows.stream().map(Figure::of).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static Stream<Figure> of(String id) {
        return figures().stream().filter(figure -> figure.id().equals(id));
    }

    /** The only figure of a series about this. */
    static Figure figure(String id, String what) {
        List<Figure> found = of(id).filter(figure -> figure.what().equals(what)).toList();
        if (found.size() != 1) {
            throw new IllegalArgumentException(found.size() + " figures of " + id + " about " + what);
        }
        return found.get(0);
    }
}
