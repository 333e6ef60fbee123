package entrapment.registry.calculations;

import entrapment.registry.intake.Fields;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Group;
import entrapment.registry.stats.Proportion;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/** What the bodies of most calculations hold: counts, groups of them, a level of confidence. */
final class CountFields {

    /** The largest count the kernel takes. */
    static final long MOST = Integer.MAX_VALUE;

    /** Rows and periods: more than any registry has, few enough to answer at once. */
    static final int MOST_ROWS = 10_000;

    /** Centres of a likelihood that is summed over all of them at every step. */
    static final int MOST_FITTED = 1_000;

    private static final Proportion NOTHING = new Proportion(0, 0);

    private CountFields() {}

    static Confidence confidence(Fields fields) {
        return new Confidence(fields.real("confidence", 0.5, 0.9999, Confidence.DEFAULT.level()));
    }

    /** Events and uses of one object. */
    static Proportion proportion(Fields fields) {
        return proportion(fields, "events", "of");
    }

    /** A count and the count it is part of. */
    static Proportion proportion(Fields fields, String part, String whole) {
        long of = fields.requiredWhole(whole, 0, MOST);
        long events = fields.requiredWhole(part, 0, MOST);
        if (events > of) {
            fields.refuse(part, "more-events-than-uses", part + " must be in [0, " + whole + "]");
            return NOTHING;
        }
        return new Proportion(events, of);
    }

    static List<Proportion> proportions(Fields fields, String name) {
        return fields.requiredObjects(name, MOST_ROWS, CountFields::proportion);
    }

    static Group group(Fields fields) {
        return new Group(fields.requiredText("name"), proportion(fields));
    }

    static List<Group> groups(Fields fields, String name, int most) {
        return fields.requiredObjects(name, most, CountFields::group);
    }

    /** Refuses an entry of a list whose name an earlier one has. */
    static <T> void refuseRepeated(Fields fields, String list, List<T> entries, Function<T, String> nameOf) {
        Set<String> names = new HashSet<>();
        for (int index = 0; index < entries.size(); index++) {
            if (!names.add(nameOf.apply(entries.get(index)))) {
                fields.refuseAt(
                        "/" + list + "/" + index + "/name",
                        "name-repeated",
                        "each of " + list + " must have a name of its own");
            }
        }
    }

    /** Refuses a list that is too short. */
    static void requireAtLeast(Fields fields, String list, int least, List<?> entries) {
        if (entries.size() < least && fields.sound("/" + list)) {
            fields.refuse(list, "too-few", list + " must have at least " + least + " entries");
        }
    }
}
