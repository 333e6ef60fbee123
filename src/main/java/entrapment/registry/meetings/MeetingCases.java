package entrapment.registry.meetings;

import entrapment.registry.access.Centre;
import entrapment.registry.access.Centres;
import entrapment.registry.access.Viewer;
import entrapment.registry.activity.Activity;
import entrapment.registry.activity.StoredReturn;
import entrapment.registry.cases.CaseQuery;
import entrapment.registry.cases.Cases;
import entrapment.registry.cases.EntrapmentCase;
import entrapment.registry.cases.StoredCase;
import entrapment.registry.cases.Withdrawal;
import entrapment.registry.intake.Fingerprint;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.question.ReportScope;
import entrapment.registry.reports.similarcases.SimilarCasesQuery;
import entrapment.registry.reports.similarcases.SimilarCasesQuestion;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Harm;
import entrapment.registry.vocabulary.Mechanism;
import entrapment.registry.vocabulary.Period;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** The cases of a meeting's periods, as of a cut: chosen, read, and held against another cut. */
@Component
class MeetingCases {

    private final Cases cases;
    private final Activity activity;
    private final Centres centres;
    private final Reports reports;
    private final SimilarCasesQuestion similarCases;

    MeetingCases(Cases cases, Activity activity, Centres centres, Reports reports, SimilarCasesQuestion similarCases) {
        this.cases = cases;
        this.activity = activity;
        this.centres = centres;
        this.reports = reports;
        this.similarCases = similarCases;
    }

    /**
     * What a rule chose.
     *
     * @param keys in the order of the seed, so that no case leads for being dramatic
     * @param fitting how many cases the rule is about
     */
    record Chosen(List<String> keys, int fitting) {}

    /** Nothing for the network's meeting: a single case stays with its centre. */
    Chosen choose(Scope scope, CaseChoice choice, long seed) {
        String centre = scope.centre();
        if (centre == null || choice.rule() == ChoiceRule.NONE) {
            return new Chosen(List.of(), 0);
        }
        Map<Field, List<?>> filters = new EnumMap<>(Field.class);
        if (choice.deviceClass() != null) {
            filters.put(Field.DEVICE_CLASS, List.of(choice.deviceClass().code()));
        }
        if (choice.harm() != null) {
            filters.put(
                    Field.HARM,
                    EnumSet.range(choice.harm(), Harm.DEATH).stream()
                            .map(Harm::code)
                            .toList());
        }
        List<String> fitting = list(centre, scope, filters).stream()
                .map(StoredCase::caseKey)
                .sorted(Comparator.comparing(key -> Fingerprint.hex(seed + "|" + key)))
                .toList();
        Integer size = choice.size();
        return new Chosen(
                fitting.stream().limit(size == null ? CaseChoice.MOST : size).toList(), fitting.size());
    }

    /**
     * The cases of some keys as they were at the cut. One whose patient has withdrawn consent since is not shown any more,
     * whatever was frozen; in the counts it stays.
     */
    Map<String, EntrapmentCase> contents(Scope scope, List<String> keys) {
        String centre = scope.centre();
        if (centre == null || keys.isEmpty()) {
            return Map.of();
        }
        return list(centre, scope, Map.of()).stream()
                .filter(stored -> keys.contains(stored.caseKey()) && !isConsentWithdrawn(stored, scope.viewer()))
                .collect(Collectors.toMap(StoredCase::caseKey, StoredCase::content));
    }

    private boolean isConsentWithdrawn(StoredCase stored, Viewer viewer) {
        return cases.versions(stored.centre(), stored.caseKey(), viewer).stream()
                .anyMatch(version -> version.withdrawn() == Withdrawal.CONSENT_WITHDRAWN);
    }

    /** What the registry knows of cases like one. */
    PresentedCase.Alike alike(Scope scope, EntrapmentCase content) {
        Mechanism mechanism = content.event().mechanism() == Mechanism.UNKNOWN
                ? null
                : content.event().mechanism();
        DeviceClass deviceClass = content.device().deviceClass();
        ReportScope everywhere = ReportScope.of(scope.viewer())
                .asOf(scope.cut().revision())
                .where(Map.of(Factor.DEVICE_CLASS, List.of(deviceClass.code())));
        return PresentedCase.Alike.of(
                deviceClass,
                mechanism,
                reports.ask(
                        similarCases,
                        new SimilarCasesQuery(
                                everywhere,
                                mechanism == null ? Map.of() : Map.of("mechanism", List.of(mechanism.code())))));
    }

    private List<StoredCase> list(String centre, Scope scope, Map<Field, List<?>> filters) {
        Map<Field, List<?>> within = new HashMap<>(filters);
        within.put(Field.PERIOD, periods(scope.span()));
        List<StoredCase> found = new ArrayList<>();
        Cases.CasePage page;
        long number = 0;
        do {
            page = cases.list(
                    new CaseQuery(
                            centre,
                            "",
                            within,
                            ++number,
                            CaseQuery.LARGEST_PAGE,
                            scope.cut().revision()),
                    scope.viewer());
            found.addAll(page.cases());
        } while (found.size() < page.total() && !page.cases().isEmpty());
        return found;
    }

    private static List<String> periods(PeriodRange range) {
        List<String> periods = new ArrayList<>();
        for (Period each = range.from(); each.compareTo(range.to()) <= 0; each = each.next()) {
            periods.add(each.toString());
        }
        return periods;
    }

    /** What was sent about the meeting's periods between two cuts. */
    Changes.Reasons reasons(Scope before, Scope after) {
        String own = before.centre();
        List<String> codes = own == null
                ? centres.list(before.viewer()).stream().map(Centre::code).toList()
                : List.of(own);
        long[] counts = new long[3];
        for (String centre : codes) {
            Map<String, Integer> old = versions(centre, before);
            Map<String, Integer> now = versions(centre, after);
            now.forEach((key, version) -> {
                if (!version.equals(old.get(key))) {
                    counts[old.containsKey(key) || wasThere(centre, key, before) ? 1 : 0]++;
                }
            });
            old.keySet().stream()
                    .filter(key -> !now.containsKey(key))
                    .forEach(key ->
                            counts[cases.find(centre, key, before.viewer()).isEmpty() ? 2 : 1]++);
        }
        Map<String, Integer> oldReturns = returns(before, codes);
        Map<String, Integer> newReturns = returns(after, codes);
        long late = newReturns.keySet().stream()
                .filter(place -> !oldReturns.containsKey(place))
                .count();
        long changed = newReturns.entrySet().stream()
                .filter(place -> oldReturns.containsKey(place.getKey())
                        && !place.getValue().equals(oldReturns.get(place.getKey())))
                .count();
        return new Changes.Reasons(counts[0], counts[1], counts[2], late, changed);
    }

    private Map<String, Integer> versions(String centre, Scope scope) {
        return list(centre, scope, Map.of()).stream()
                .collect(Collectors.toMap(StoredCase::caseKey, StoredCase::version));
    }

    /** Whether a case had been sent before a cut, in other periods or withdrawn. */
    private boolean wasThere(String centre, String caseKey, Scope before) {
        return cases.versions(centre, caseKey, before.viewer()).stream()
                .anyMatch(version -> version.revision() <= before.cut().revision());
    }

    private Map<String, Integer> returns(Scope scope, List<String> codes) {
        if (codes.isEmpty()) {
            return Map.of();
        }
        return centres.within(codes, scope.viewer(), () -> activity.returns(scope.cut(), codes)).stream()
                .filter(stored -> stored.period().compareTo(scope.span().from()) >= 0
                        && stored.period().compareTo(scope.span().to()) <= 0)
                .collect(Collectors.toMap(stored -> stored.centre() + " " + stored.period(), StoredReturn::version));
    }
}
