package entrapment.registry.cases;

import entrapment.registry.cases.EntrapmentCase.Attempt;
import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.DeviceSize;
import entrapment.registry.vocabulary.Enabler;
import entrapment.registry.vocabulary.Fragment;
import entrapment.registry.vocabulary.GuideFrench;
import entrapment.registry.vocabulary.Haemodynamics;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.MiDefinition;
import entrapment.registry.vocabulary.Perforation;
import entrapment.registry.vocabulary.Release;
import entrapment.registry.vocabulary.ShockStage;
import entrapment.registry.vocabulary.Technique;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What ties the fields of a case together. A case that breaks a refusing rule is not stored; one that breaks a
 * querying rule is stored, and the answer asks its sender to look again.
 */
@SuppressWarnings("ImmutableEnumChecker") // the sets are made by Set.of and the functions hold no state
public enum CaseRule {
    SIZE_FOR_CLASS(
            Kind.REFUSED,
            DeviceSize.RULE,
            "common practice, no single source; wide on purpose",
            Set.of("/device"),
            at(
                    "/device/deviceSizeMm",
                    sent -> !DeviceSize.possible(
                            sent.device().deviceClass(), sent.device().deviceSizeMm()))),
    ATTEMPT_AFTER_RELEASE(
            Kind.REFUSED,
            "no attempt may follow one whose result is released",
            "registry convention",
            Set.of("/attempts"),
            CaseRule::afterRelease),
    RELEASE_WITHOUT_RELEASING(
            Kind.REFUSED,
            "release intact or damaged needs a last attempt that released the device or removed it (surgery)",
            "registry convention",
            Set.of("/attempts", "/outcome/release"),
            at(
                    "/outcome/release",
                    sent -> Set.of(Release.INTACT, Release.DAMAGED)
                                    .contains(sent.outcome().release())
                            && sent.endedWith(last -> !last.released() && last.technique() != Technique.SURGERY))),
    NONE_THOUGH_RELEASED(
            Kind.REFUSED,
            "release none contradicts a last attempt that released the device",
            "registry convention",
            Set.of("/attempts", "/outcome/release"),
            at(
                    "/outcome/release",
                    sent -> sent.outcome().release() == Release.NONE && sent.endedWith(Attempt::released))),
    FRAGMENT_WITH_INTACT(
            Kind.REFUSED,
            "release intact leaves no fragment: fragment must be none or unknown",
            "registry convention",
            Set.of("/outcome/release", "/outcome/fragment"),
            at(
                    "/outcome/fragment",
                    sent -> sent.outcome().release() == Release.INTACT
                            && !Set.of(Fragment.NONE, Fragment.UNKNOWN)
                                    .contains(sent.outcome().fragment()))),
    DEATH_IS_IN_HOSPITAL_DEATH(
            Kind.REFUSED,
            "harm death and the complication in-hospital-death go together",
            "registry convention",
            Set.of("/outcome/harm", "/outcome/complications"),
            at(
                    "/outcome/harm",
                    sent -> (sent.outcome().harm() == Harm.DEATH) != sent.had(Complication.IN_HOSPITAL_DEATH))),
    MI_DEFINITION_WITHOUT_MI(
            Kind.REFUSED,
            "miDefinition is given only with the complication periprocedural-mi",
            "registry convention",
            Set.of("/outcome/miDefinition", "/outcome/complications"),
            at(
                    "/outcome/miDefinition",
                    sent -> sent.outcome().miDefinition() != MiDefinition.UNKNOWN
                            && !sent.had(Complication.PERIPROCEDURAL_MI))),
    FALLING_MINUTES(
            Kind.REFUSED,
            "minutesFromEntrapment must not fall from one attempt to the next",
            "registry convention",
            Set.of("/attempts"),
            CaseRule::fallingMinutes),

    BESIDE_BURR_IN_SMALL_GUIDE(
            "a second wire and balloon fit beside a burr in a 6 or 7 Fr guide only once its shaft is cut and its sheath"
                    + " removed; check guideFrench and enablers",
            "common practice, no single source",
            sent -> attemptsWhere(sent, attempt -> besideBurrInSmallGuide(sent, attempt))),
    BURR_TOO_LARGE_FOR_GUIDE(
            "a burr of this size does not usually pass this guide (5 Fr to 1.25, 6 Fr to 1.75, 7 Fr to 2.00, 8 Fr to"
                    + " 2.25 mm); check deviceSizeMm and guideFrench",
            "manufacturers' guide tables [from memory]; common practice, no single source",
            at("/device/deviceSizeMm", CaseRule::burrTooLarge)),
    STABLE_WITH_SHOCK(
            "stable haemodynamics with SCAI stage C, D or E; check haemodynamics and shockStage",
            "Naidu SS et al., J Am Coll Cardiol 2022;79:933",
            at(
                    "/event/shockStage",
                    sent -> sent.event().haemodynamics() == Haemodynamics.STABLE
                            && EnumSet.of(ShockStage.C, ShockStage.D, ShockStage.E)
                                    .contains(sent.event().shockStage()))),
    TAMPONADE_WITHOUT_HARM(
            "tamponade with harm none or mild; drainage is usually severe harm; check harm",
            "WHO degrees of harm, WHO/IER/PSP/2010.2; reading of the degrees: registry convention",
            at(
                    "/outcome/harm",
                    sent -> sent.had(Complication.TAMPONADE)
                            && Set.of(Harm.NONE, Harm.MILD)
                                    .contains(sent.outcome().harm()))),
    SURGERY_WITHOUT_COMPLICATION(
            "surgery was tried but emergency-surgery is not among the complications; check complications",
            "registry convention",
            at(
                    "/outcome/complications",
                    sent -> !sent.had(Complication.EMERGENCY_SURGERY) && sent.tried(Technique.SURGERY))),
    WORSE_PERFORATION_WITHOUT_HARM(
            "a perforation of type III with harm none; check perforation and harm",
            "Ellis SG et al., Circulation 1994;90:2725",
            at(
                    "/outcome/harm",
                    sent -> sent.outcome().perforation() == Perforation.III
                            && sent.outcome().harm() == Harm.NONE)),
    PARTIAL_WITHOUT_FRAGMENT(
            "release partial with fragment none; say where the rest is, or unknown if it was not seen",
            "common practice, no single source: what is not seen on X-ray may still be there",
            at(
                    "/outcome/fragment",
                    sent -> sent.outcome().release() == Release.PARTIAL
                            && sent.outcome().fragment() == Fragment.NONE)),
    STENT_TECHNIQUE_WITHOUT_STENT(
            "balloon-through-stent retrieves a lost stent, but deviceClass is another; check deviceClass and technique",
            "common practice, no single source",
            sent -> sent.device().deviceClass() == DeviceClass.STENT
                    ? List.of()
                    : attemptsWhere(sent, attempt -> attempt.technique() == Technique.BALLOON_THROUGH_STENT));

    /** What happens to a case that breaks the rule. */
    public enum Kind {
        REFUSED,
        QUERIED
    }

    private final Kind kind;
    private final String sentence;
    private final String source;
    private final Set<String> reads;
    private final Function<EntrapmentCase, List<String>> broken;

    /** One that queries a case, which is read as a whole by then. */
    CaseRule(String sentence, String source, Function<EntrapmentCase, List<String>> broken) {
        this(Kind.QUERIED, sentence, source, Set.of(), broken);
    }

    CaseRule(
            Kind kind,
            String sentence,
            String source,
            Set<String> reads,
            Function<EntrapmentCase, List<String>> broken) {
        this.kind = kind;
        this.sentence = sentence;
        this.source = source;
        this.reads = reads;
        this.broken = broken;
    }

    /** The rule's id, which is the error code of a refusal. */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What happens to a case that breaks it. */
    public Kind kind() {
        return kind;
    }

    /** The rule in words. */
    public String sentence() {
        return sentence;
    }

    /** A publication, or whose convention it is. */
    public String source() {
        return source;
    }

    /** Refuses what breaks a refusing rule, as far as the fields it looks at could be read. */
    static void refuse(EntrapmentCase entrapmentCase, Fields fields) {
        for (CaseRule rule : values()) {
            if (rule.kind == Kind.REFUSED && rule.reads.stream().allMatch(fields::sound)) {
                rule.broken.apply(entrapmentCase).forEach(at -> fields.refuseAt(at, rule.id(), rule.sentence));
            }
        }
    }

    /** What the sender should look at again. */
    static List<DataQuery> queries(EntrapmentCase entrapmentCase) {
        return Stream.of(values())
                .filter(rule -> rule.kind == Kind.QUERIED)
                .flatMap(rule -> rule.broken.apply(entrapmentCase).stream()
                        .map(at -> new DataQuery(rule.id(), at, rule.sentence)))
                .toList();
    }

    private static Function<EntrapmentCase, List<String>> at(String pointer, Predicate<EntrapmentCase> broken) {
        return entrapmentCase -> broken.test(entrapmentCase) ? List.of(pointer) : List.of();
    }

    private static List<String> attemptsWhere(EntrapmentCase entrapmentCase, Predicate<Attempt> broken) {
        List<Attempt> attempts = entrapmentCase.attempts();
        return IntStream.range(0, attempts.size())
                .filter(index -> broken.test(attempts.get(index)))
                .mapToObj(index -> "/attempts/" + index)
                .toList();
    }

    private static List<String> afterRelease(EntrapmentCase entrapmentCase) {
        List<Attempt> attempts = entrapmentCase.attempts();
        return IntStream.range(1, attempts.size())
                .filter(index -> attempts.subList(0, index).stream().anyMatch(Attempt::released))
                .mapToObj(index -> "/attempts/" + index)
                .toList();
    }

    private static List<String> fallingMinutes(EntrapmentCase entrapmentCase) {
        List<String> falling = new ArrayList<>();
        long latest = 0;
        for (int index = 0; index < entrapmentCase.attempts().size(); index++) {
            Long minutes = entrapmentCase.attempts().get(index).minutesFromEntrapment();
            if (minutes != null && minutes < latest) {
                falling.add("/attempts/" + index + "/minutesFromEntrapment");
            }
            latest = minutes == null ? latest : Math.max(latest, minutes);
        }
        return falling;
    }

    private static boolean besideBurrInSmallGuide(EntrapmentCase entrapmentCase, Attempt attempt) {
        return entrapmentCase.device().deviceClass() == DeviceClass.ROTATIONAL_BURR
                && Set.of(GuideFrench.F6, GuideFrench.F7)
                        .contains(entrapmentCase.procedure().guideFrench())
                && attempt.technique() == Technique.PARALLEL_BALLOON
                && !attempt.enablers().containsAll(Set.of(Enabler.SHAFT_CUT, Enabler.SHEATH_REMOVED));
    }

    private static boolean burrTooLarge(EntrapmentCase entrapmentCase) {
        return entrapmentCase.device().deviceClass() == DeviceClass.ROTATIONAL_BURR
                && !DeviceSize.burrPasses(
                        entrapmentCase.procedure().guideFrench(),
                        entrapmentCase.device().deviceSizeMm());
    }
}
