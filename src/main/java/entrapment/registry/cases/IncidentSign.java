package entrapment.registry.cases;

import static java.util.stream.Collectors.joining;

import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.Fractured;
import entrapment.registry.vocabulary.Fragment;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Mechanism;
import entrapment.registry.vocabulary.Release;
import entrapment.registry.vocabulary.Technique;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * What in a case may concern the rules on incidents with devices, so that its sender thinks of them in time. Wide on
 * purpose, and a pointer alone: whether a case is reportable is a question of law and of more than a registry knows.
 */
@SuppressWarnings("ImmutableEnumChecker") // the functions hold no state
public enum IncidentSign {
    DEATH("harm is death", "21 CFR 803.30: deaths", sent -> sent.outcome().harm() == Harm.DEATH),
    SEVERE_HARM(
            "harm is severe",
            "21 CFR 803.30: serious injuries; that severe harm may be one: registry convention",
            sent -> sent.outcome().harm() == Harm.SEVERE),
    SURGERY(
            "surgery was needed",
            "21 CFR 803.3, serious injury: surgical intervention to preclude permanent damage [from memory]",
            sent -> sent.had(Complication.EMERGENCY_SURGERY) || sent.tried(Technique.SURGERY)),
    DEVICE_BROKEN_APART(
            "the device or wire broke apart",
            "a possible malfunction: registry convention",
            sent -> sent.event().fractured() == Fractured.YES),
    FAILED_DEFLATION(
            "the device did not deflate",
            "a possible malfunction: registry convention",
            sent -> sent.event().mechanism() == Mechanism.FAILED_DEFLATION),
    FRAGMENT_LEFT(
            "not all of the device came out",
            "a possible malfunction or injury: registry convention",
            sent -> Set.of(Release.PARTIAL, Release.NONE)
                            .contains(sent.outcome().release())
                    && !Set.of(Fragment.NONE, Fragment.UNKNOWN)
                            .contains(sent.outcome().fragment())),
    STENT_AVULSED(
            "a stent was avulsed",
            "a possible malfunction: registry convention",
            sent -> sent.had(Complication.STENT_AVULSED));

    private static final String RULES =
            "local device-incident rules may require a report within days. In the US, user facilities: 21 CFR 803.10 and"
                    + " 803.30, within 10 work days of becoming aware of a death or serious injury that a device has or may"
                    + " have caused or contributed to. In the EU, manufacturers: Regulation (EU) 2017/745, Art. 87;"
                    + " hospitals by national rules. Check with your own safety office; the registry does not judge this"
                    + " and reports nothing.";

    /** What the answer to many cases says once, where some of them have a sign. */
    static final String NOTE_OF_MANY = "For cases such as those counted in mayBeReportable ("
            + reasons(Stream.of(values()), " or ") + ") " + RULES;

    private final String reason;
    private final String source;
    private final Predicate<EntrapmentCase> shown;

    IncidentSign(String reason, String source, Predicate<EntrapmentCase> shown) {
        this.reason = reason;
        this.source = source;
        this.shown = shown;
    }

    /** The sign in words. */
    public String reason() {
        return reason;
    }

    /** The rule that it may concern, or whose convention it is. */
    public String source() {
        return source;
    }

    /** The signs that a case shows. */
    static List<IncidentSign> of(EntrapmentCase entrapmentCase) {
        return Stream.of(values())
                .filter(sign -> sign.shown.test(entrapmentCase))
                .toList();
    }

    /** What its sender is told of a case: nothing where it shows no sign. */
    static List<String> notes(EntrapmentCase entrapmentCase) {
        List<IncidentSign> signs = of(entrapmentCase);
        return signs.isEmpty()
                ? List.of()
                : List.of("For a case such as this (" + reasons(signs.stream(), ", ") + ") " + RULES);
    }

    private static String reasons(Stream<IncidentSign> signs, String between) {
        return signs.map(IncidentSign::reason).collect(joining(between));
    }
}
