package entrapment.registry.meetings;

import entrapment.registry.access.DataCut;
import entrapment.registry.access.Role;
import entrapment.registry.access.Viewer;
import entrapment.registry.reports.question.ReportScope;
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

    /** What a report is asked about these periods, as of the cut. */
    ReportScope of(PeriodRange periods) {
        return ReportScope.of(viewer)
                .at(centre)
                .between(periods.from(), periods.to())
                .asOf(cut.revision());
    }
}
