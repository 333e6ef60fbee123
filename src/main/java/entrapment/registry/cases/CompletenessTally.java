package entrapment.registry.cases;

import entrapment.registry.vocabulary.Period;
import java.util.List;
import java.util.Map;

/**
 * What is not known of the cases of a centre and period.
 *
 * @param complete cases of which every field that is not {@link #OPTIONAL} is known
 * @param queried cases of which the sender was asked to look again, by the rules as they were when the version came
 * @param fields by the name of each field that can be unknown or absent, in the order of a CSV row
 */
public record CompletenessTally(
        String centre, Period period, long cases, long complete, long queried, Map<String, Unknown> fields) {

    /** The name under which attempts without minutes are counted: cases that have such an attempt. */
    public static final String MINUTES = "minutesFromEntrapment";

    /** Fields that a sender may leave out of a case that is nevertheless complete. */
    public static final List<String> OPTIONAL = List.of("segment", "deviceSizeMm", "shockStage", MINUTES);

    /** Cases in which a field is unknown or absent, of those in which it means something. */
    public record Unknown(long cases, long of) {}
}
