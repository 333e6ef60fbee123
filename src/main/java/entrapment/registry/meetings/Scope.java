package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What the figures of a meeting are about, and as whom they are asked for.
 *
 * @param centre null for the network
 * @param previous the periods to hold the meeting's against
 * @param ofMeeting whether those are an earlier meeting's, not only as many periods before
 */
record Scope(
        @Nullable String centre,
        PeriodRange span,
        PeriodRange previous,
        boolean ofMeeting,
        DataCut cut,
        Viewer viewer) {

    /**
     * Who asks for the figures of a meeting: an analyst of its centre, whoever reads it, so that all see the same; of the
     * network's meeting the steward, who alone reads it.
     */
    static Viewer asker(@Nullable String centre, Viewer viewer) {
        return centre == null ? viewer : new Viewer(viewer.keyId(), Role.ANALYST, centre);
    }

    /** The parameters of a report about these periods, as of the cut. */
    Map<String, List<String>> query(PeriodRange periods) {
        Map<String, List<String>> query = query();
        query.put("from", List.of(periods.from().toString()));
        query.put("to", List.of(periods.to().toString()));
        return query;
    }

    /** The same about every period. */
    Map<String, List<String>> query() {
        Map<String, List<String>> query = new LinkedHashMap<>();
        if (centre != null) {
            query.put("centre", List.of(centre));
        }
        query.put("asOf", List.of(Long.toString(cut.revision())));
        return query;
    }
}
