package entrapment.registry.reports;

import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Reading;
import entrapment.registry.stats.AttemptPattern;
import entrapment.registry.stats.AttemptsAnalysis;
import entrapment.registry.stats.Calculation;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.DifferenceAnalysis;
import entrapment.registry.stats.DiscordanceAnalysis;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.OddsRatioAnalysis;
import entrapment.registry.stats.OddsRatioLevelsAnalysis;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionAnalysis;
import entrapment.registry.stats.Rate;
import entrapment.registry.stats.RateAnalysis;
import entrapment.registry.stats.RelativeRiskAnalysis;
import entrapment.registry.stats.TwoByTwo;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Computes from counts the caller brings; nothing is stored. */
@Component
public class Calculations {

    private static final long MOST = Integer.MAX_VALUE;
    private static final int MOST_ROWS = 10_000;
    private static final double LARGEST = 1e12;
    private static final Proportion NOTHING = new Proportion(0, 0);

    /** The answer of a method to a body. */
    public Reading<Record> answer(Calculation calculation, JsonNode body) {
        Reading<Record> answer;
        try {
            answer = Fields.read(body, fields -> compute(calculation, fields));
        } catch (IllegalArgumentException impossible) {
            // The kernel's own guards name roles and counts, which the caller brought and which identify nobody.
            answer = new Reading.Refused<>(
                    List.of(new FieldError("", "impossible-counts", String.valueOf(impossible.getMessage()))));
        }
        return answer;
    }

    private static Record compute(Calculation calculation, Fields fields) {
        return switch (calculation) {
            case PROPORTION -> ProportionAnalysis.of(proportion(fields), confidence(fields));
            case DIFFERENCE ->
                DifferenceAnalysis.of(
                        fields.object("a", Calculations::proportion),
                        fields.object("b", Calculations::proportion),
                        confidence(fields));
            case RELATIVE_RISK ->
                RelativeRiskAnalysis.of(
                        fields.object("a", Calculations::proportion),
                        fields.object("b", Calculations::proportion),
                        confidence(fields));
            case RATE ->
                RateAnalysis.of(
                        new Rate(fields.requiredWhole("events", 0, MOST), exposure(fields)),
                        fields.real("per", Double.MIN_NORMAL, LARGEST, 1),
                        confidence(fields));
            case ODDS_RATIO ->
                OddsRatioAnalysis.of(
                        TwoByTwo.of(
                                fields.object("exposed", Calculations::proportion),
                                fields.object("reference", Calculations::proportion)),
                        confidence(fields));
            case ODDS_RATIO_LEVELS -> oddsRatioLevels(fields);
            case ATTEMPTS -> AttemptsAnalysis.of(attempts(fields), confidence(fields));
            case DISCORDANCE ->
                DiscordanceAnalysis.of(fields.objects(
                        "rows",
                        MOST_ROWS,
                        row -> new DiscordanceAnalysis.Row(
                                row.requiredText("name"),
                                row.whole("numerator", -MOST, MOST),
                                row.whole("of", -MOST, MOST))));
        };
    }

    private static Confidence confidence(Fields fields) {
        return new Confidence(fields.real("confidence", 0.5, 0.9999, Confidence.DEFAULT.level()));
    }

    private static Proportion proportion(Fields fields) {
        long of = fields.requiredWhole("of", 0, MOST);
        long events = fields.requiredWhole("events", 0, MOST);
        if (events > of) {
            fields.refuse("events", "more-events-than-uses", "events must be in [0, of]");
            return NOTHING;
        }
        return new Proportion(events, of);
    }

    private static double exposure(Fields fields) {
        if (!fields.has("exposure")) {
            fields.refuse("exposure", "missing", "exposure is required");
        }
        return fields.real("exposure", 0, LARGEST, 0);
    }

    private static Record oddsRatioLevels(Fields fields) {
        List<Group> levels =
                fields.objects("levels", MOST_ROWS, level -> new Group(level.requiredText("name"), proportion(level)));
        String reference = fields.text("reference");
        long names = levels.stream().map(Group::name).distinct().count();
        if (levels.size() < 2 || names < levels.size()) {
            fields.refuse("levels", "levels-by-name", "levels must be two or more, each with a name of its own");
            return NOTHING;
        }
        if (reference != null && levels.stream().noneMatch(level -> level.name().equals(reference))) {
            fields.refuse("reference", "not-a-level", "reference must be the name of one of the levels");
            return NOTHING;
        }
        return OddsRatioLevelsAnalysis.of(levels, reference, confidence(fields));
    }

    private static List<AttemptPattern> attempts(Fields fields) {
        List<AttemptPattern> patterns = new ArrayList<>();
        JsonNode cases = fields.raw("cases");
        if (cases == null || !cases.isArray() || cases.size() > MOST_ROWS) {
            fields.refuse(
                    "cases", "wrong-type", "cases must be an array of at most " + MOST_ROWS + " arrays of 0 and 1");
            return patterns;
        }
        for (int index = 0; index < cases.size(); index++) {
            JsonNode attempts = cases.get(index);
            List<Boolean> results = attempts.isArray()
                    ? attempts.valueStream().flatMap(Calculations::success).toList()
                    : List.of();
            if (results.isEmpty() || results.size() < attempts.size()) {
                fields.refuseAt("/cases/" + index, "wrong-type", "a case must be an array of 0 and 1, at least one");
            } else {
                patterns.add(new AttemptPattern(results));
            }
        }
        return patterns;
    }

    private static Stream<Boolean> success(JsonNode attempt) {
        int value = attempt.isIntegralNumber() && attempt.canConvertToInt() ? attempt.intValue() : -1;
        return value == 0 || value == 1 ? Stream.of(value == 1) : Stream.empty();
    }
}
