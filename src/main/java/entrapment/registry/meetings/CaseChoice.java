package entrapment.registry.meetings;

import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import org.jspecify.annotations.Nullable;

/**
 * Which cases of its periods a meeting looks at one by one.
 *
 * @param deviceClass the kind, of rule kind alone
 * @param harm the least degree, of rule harm-at-least alone
 * @param size how many, of rule random-sample alone
 */
public record CaseChoice(
        ChoiceRule rule,
        @Nullable DeviceClass deviceClass,
        @Nullable Harm harm,
        @Nullable Integer size) {

    static final CaseChoice NONE = new CaseChoice(ChoiceRule.NONE, null, null, null);

    /** More than this nobody looks at in one meeting. */
    static final int MOST = 12;

    static CaseChoice read(Fields fields) {
        ChoiceRule rule = fields.code("rule", ChoiceRule.class, ChoiceRule.NONE);
        DeviceClass deviceClass =
                fields.has("deviceClass") ? fields.requiredCode("deviceClass", DeviceClass.class) : null;
        Harm harm = fields.has("harm") ? fields.requiredCode("harm", Harm.class) : null;
        Long size = fields.whole("size", 1, MOST);
        require(fields, "deviceClass", rule == ChoiceRule.KIND);
        require(fields, "harm", rule == ChoiceRule.HARM_AT_LEAST);
        require(fields, "size", rule == ChoiceRule.RANDOM_SAMPLE);
        return new CaseChoice(rule, deviceClass, harm, size == null ? null : size.intValue());
    }

    private static void require(Fields fields, String name, boolean wanted) {
        if (fields.sound("/rule") && fields.has(name) != wanted) {
            fields.refuse(
                    name,
                    "case-rule-fields",
                    name + (wanted ? " is required with this rule" : " is not given with this rule"));
        }
    }

    /** How the cases were chosen, for whoever looks at them. */
    String sentence(long fitting, int shown, long seed) {
        String chosen =
                switch (rule) {
                    case NONE -> "No single case is shown.";
                    case KIND -> "Every case with a " + code(deviceClass) + ": " + fitting + ".";
                    case HARM_AT_LEAST -> "Every case with harm " + code(harm) + " or worse: " + fitting + ".";
                    case RANDOM_SAMPLE ->
                        "A random sample of %d from all %d cases (seed %d).".formatted(shown, fitting, seed);
                };
        return rule == ChoiceRule.RANDOM_SAMPLE || shown == fitting || rule == ChoiceRule.NONE
                ? chosen
                : "%s Too many for one meeting: %d of them are shown, drawn at random (seed %d)."
                        .formatted(chosen, shown, seed);
    }

    private static String code(@Nullable Object code) {
        return code instanceof entrapment.registry.vocabulary.Code known ? known.code() : "";
    }
}
