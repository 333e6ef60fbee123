package entrapment.registry.reports.harm;

import entrapment.registry.cases.OutcomeTally;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.IntervalMethod;
import entrapment.registry.stats.Proportion;
import entrapment.registry.stats.ProportionEstimate;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Complication;
import entrapment.registry.vocabulary.Harm;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** How many cases ended in each way, by field and code. */
record OutcomeCounts(Map<String, Map<String, Long>> counts) {

    private static final String HARM = "harm";

    static OutcomeCounts of(List<OutcomeTally> tallies) {
        return new OutcomeCounts(tallies.stream()
                .collect(Collectors.groupingBy(
                        OutcomeTally::field,
                        Collectors.groupingBy(OutcomeTally::code, Collectors.summingLong(tally -> tally.tally()
                                .count())))));
    }

    long of(String field, Code code) {
        return counts.getOrDefault(field, Map.of()).getOrDefault(code.code(), 0L);
    }

    /** Every case has one degree of harm. */
    long cases() {
        return counts.getOrDefault(HARM, Map.of()).values().stream()
                .mapToLong(Long::longValue)
                .sum();
    }

    Map<Harm, ProportionEstimate> harm(Confidence confidence) {
        return shares(HARM, Harm.values(), confidence);
    }

    Map<Complication, ProportionEstimate> complications(Confidence confidence) {
        return shares("complications", Complication.values(), confidence);
    }

    private <C extends Code> Map<C, ProportionEstimate> shares(String field, C[] codes, Confidence confidence) {
        Map<C, ProportionEstimate> shares = new LinkedHashMap<>();
        for (C code : codes) {
            shares.put(
                    code,
                    ProportionEstimate.of(new Proportion(of(field, code), cases()), IntervalMethod.WILSON, confidence));
        }
        return shares;
    }
}
