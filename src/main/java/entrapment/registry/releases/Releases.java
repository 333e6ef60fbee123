package entrapment.registry.releases;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Settings;
import entrapment.registry.reports.Reports;
import entrapment.registry.reports.YearlyCount;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.Harm;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * What leaves the network. A release is made by the steward, audited together with every earlier one before it is kept, and
 * kept for ever; whatever goes to the outside is read from kept releases alone.
 */
@Component
public class Releases {

    private static final Proposal.Codes CODES = new Proposal.Codes(
            Stream.of(DeviceClass.values()).map(Code::code).toList(),
            Stream.of(Harm.values()).map(Code::code).toList());

    private final ReleaseRows rows;
    private final Reports reports;
    private final Revisions revisions;
    private final Centres centres;
    private final AuditTrail audit;
    private final Clock clock;
    private final Settings settings;

    Releases(
            ReleaseRows rows,
            Reports reports,
            Revisions revisions,
            Centres centres,
            AuditTrail audit,
            Clock clock,
            Settings settings) {
        this.rows = rows;
        this.reports = reports;
        this.revisions = revisions;
        this.centres = centres;
        this.audit = audit;
        this.clock = clock;
        this.settings = settings;
    }

    /**
     * Makes the next release of every complete year.
     *
     * @param through the last year; null for the last that is complete
     */
    @Transactional
    public ReleaseView make(@Nullable Integer through, Viewer viewer) {
        viewer.requireSteward();
        centres.require(List.of(), viewer);
        rows.lock();
        List<OutsideRelease> kept = new ArrayList<>(rows.all());
        OutsideRelease release = next(through, kept, viewer);
        rows.keep(release, viewer);
        audit.done(viewer, null, AuditTrail.Action.RELEASE, "releases");
        kept.add(release);
        return ReleaseView.of(release, kept);
    }

    /** What {@link #make} would release now, for looking at before it is kept for ever; keeps nothing. */
    @Transactional(readOnly = true)
    public ReleaseView propose(@Nullable Integer through, Viewer viewer) {
        viewer.requireSteward();
        centres.require(List.of(), viewer);
        List<OutsideRelease> kept = new ArrayList<>(rows.all());
        OutsideRelease release = next(through, kept, viewer);
        kept.add(release);
        return ReleaseView.of(release, kept);
    }

    private OutsideRelease next(@Nullable Integer through, List<OutsideRelease> kept, Viewer viewer) {
        int throughYear = throughYear(through, kept);
        DataCut cut = revisions.cut(null);
        List<YearlyCount> counts = counts(kept, cut, throughYear, viewer);
        if (counts.isEmpty()) {
            throw Problem.refused(List.of(new FieldError(
                    "",
                    "nothing-to-release",
                    "no use was reported in a complete year, so there is nothing to release")));
        }
        int firstYear = kept.isEmpty()
                ? counts.stream().mapToInt(YearlyCount::year).min().orElseThrow()
                : kept.get(0).firstYear();
        Proposal proposal = Proposal.of(kept, counts, CODES, firstYear, throughYear, settings.smallestCount());
        if (!proposal.safe()) {
            throw unsafe(proposal);
        }
        return new OutsideRelease(
                kept.size() + 1,
                clock.instant().truncatedTo(ChronoUnit.MILLIS),
                cut,
                firstYear,
                throughYear,
                settings.smallestCount(),
                proposal.figures(),
                proposal.audit());
    }

    private int throughYear(@Nullable Integer asked, List<OutsideRelease> kept) {
        int complete = LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC).getYear() - 1;
        int throughYear = asked == null ? complete : asked;
        if (throughYear > complete) {
            throw Problem.refused(List.of(new FieldError(
                    "/throughYear",
                    "year-not-complete",
                    "throughYear must be a complete calendar year, " + complete + " or before")));
        }
        if (!kept.isEmpty() && throughYear < kept.get(kept.size() - 1).throughYear()) {
            throw Problem.refused(List.of(new FieldError(
                    "/throughYear",
                    "year-released",
                    "throughYear must not be before "
                            + kept.get(kept.size() - 1).throughYear() + ", the last year of the newest release")));
        }
        return throughYear;
    }

    /** Each year as of the cut of the release that first had it. */
    private List<YearlyCount> counts(List<OutsideRelease> kept, DataCut cut, int throughYear, Viewer viewer) {
        List<YearlyCount> counts = new ArrayList<>();
        Integer next = null;
        for (OutsideRelease release : kept) {
            if (next == null || release.throughYear() >= next) {
                counts.addAll(reports.yearly(
                        release.dataCut(), next == null ? release.firstYear() : next, release.throughYear(), viewer));
                next = release.throughYear() + 1;
            }
        }
        if (next == null || throughYear >= next) {
            counts.addAll(reports.yearly(cut, next, throughYear, viewer));
        }
        return counts;
    }

    private static Refusal unsafe(Proposal proposal) {
        List<Sum> inTheWay =
                proposal.contradicted().isEmpty() ? proposal.audit().unprotected() : proposal.contradicted();
        return new Refusal(
                Problem.REFUSED,
                proposal.contradicted().isEmpty()
                        ? "Nothing was released: whatever this release hides, earlier ones give small counts away."
                        : "Nothing was released: earlier releases print what is no longer counted as of their data cut.",
                List.of(new FieldError(
                        "",
                        "release-not-safe",
                        "the release cannot be made safe; inTheWay names the groupings that stand in the way")),
                Map.of(
                        "inTheWay",
                        inTheWay.stream().map(Grouping::of).distinct().toList()));
    }

    /** Every release, newest first. */
    @Transactional(readOnly = true)
    public List<ReleaseView> list(Viewer viewer) {
        viewer.requireSteward();
        List<OutsideRelease> kept = rows.all();
        return kept.stream()
                .sorted(Comparator.comparingInt(OutsideRelease::number).reversed())
                .map(release -> ReleaseView.of(release, kept))
                .toList();
    }

    /** One release. */
    @Transactional(readOnly = true)
    public ReleaseView find(int number, Viewer viewer) {
        viewer.requireSteward();
        List<OutsideRelease> kept = rows.all();
        return kept.stream()
                .filter(release -> release.number() == number)
                .findFirst()
                .map(release -> ReleaseView.of(release, kept))
                .orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such release."));
    }

    /** A report that is open to the outside, as far as it is released: {@code incidence} or {@code harm}. */
    @Transactional(readOnly = true)
    public OutsideReport report(String name, OutsideQuery query, Viewer viewer) {
        viewer.requireSteward();
        List<OutsideRelease> kept = rows.all();
        OutsideRelease release = inForce(query, kept);
        return name.equals("harm")
                ? OutsideHarm.of(query.by(), release, kept)
                : OutsideIncidence.of(query.by(), release, kept);
    }

    /** The newest release, or the newest that was made at or before a revision. */
    private OutsideRelease inForce(OutsideQuery query, List<OutsideRelease> kept) {
        long revision = revisions.cut(query.asOf()).revision();
        return kept.stream()
                .filter(release -> query.asOf() == null || release.dataCut().revision() <= revision)
                .reduce((earlier, later) -> later)
                .orElseThrow(() -> Problem.NOT_FOUND.refusal(
                        "There is no release to answer from: the steward makes one with POST /api/releases."));
    }
}
