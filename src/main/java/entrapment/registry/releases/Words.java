package entrapment.registry.releases;

import entrapment.registry.exports.NumberText;
import entrapment.registry.reports.Reports;
import entrapment.registry.stats.Confidence;
import entrapment.registry.stats.Interval;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What is said beside every figure that leaves the network. */
final class Words {

    /** Said in place of a figure that is hidden. */
    static final String HIDDEN = "Not shown: a small count, or one that protects a small one.";

    /** In the column of a level: all of them together. */
    static final String ANY = "any";

    private Words() {}

    /** What stands in a cell of a table. */
    static Object cell(@Nullable Long count) {
        return count == null ? NumberText.SUPPRESSED : count;
    }

    static String perThousand(double estimate, Interval interval, Confidence confidence) {
        Double lower = interval.lower();
        Double upper = interval.upper();
        return lower == null || upper == null
                ? NumberText.perThousand(estimate)
                : "%s per 1,000 (%s %% CI %s to %s)"
                        .formatted(
                                NumberText.perThousand(estimate),
                                NumberText.level(confidence.level()),
                                NumberText.perThousand(lower),
                                NumberText.perThousand(upper));
    }

    /** The notes of a release and of every view of it. */
    static List<String> notes(OutsideRelease release, List<OutsideRelease> kept) {
        int smallestCount = kept.stream()
                .filter(each -> each.number() <= release.number())
                .mapToInt(OutsideRelease::smallestCount)
                .max()
                .orElse(release.smallestCount());
        List<String> notes = new ArrayList<>();
        notes.add("Cells marked %s hold 1 to %d events or protect such a cell."
                .formatted(NumberText.SUPPRESSED, smallestCount - 1));
        notes.add(
                "The same holds for uses, and for uses without an entrapment; estimates and limits are given only where"
                        + " both counts are shown.");
        notes.add(
                "Complete calendar years %d to %d, each as it was counted when it was first released: later corrections"
                                .formatted(release.firstYear(), release.throughYear())
                        + " do not reach the outside.");
        notes.add(
                "Where the cases of a centre, period and device class have no return or outnumber the uses, uses, events"
                        + " and their harm are left out.");
        return notes;
    }

    /** Everything that must be said, as comment lines of a table. */
    static List<String> comments(String question, OutsideRelease release, List<String> notes) {
        List<String> comments = new ArrayList<>();
        comments.add(" " + question);
        comments.add(" release " + release.number() + ", data cut: revision "
                + release.dataCut().revision() + ", " + release.dataCut().at());
        notes.forEach(note -> comments.add(" note: " + note));
        Reports.CAUTIONS.forEach(caution -> comments.add(" caution: " + caution));
        return comments;
    }
}
