package entrapment.registry.cases;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.FieldError;
import entrapment.registry.intake.Problem;
import entrapment.registry.intake.Reading;
import entrapment.registry.intake.Refusal;
import entrapment.registry.intake.Rows;
import entrapment.registry.intake.Rows.Row;
import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.JsonNode;

/** The entrapment cases of the network: sent, changed, withdrawn, read, counted. */
@Component
public class Cases {

    private static final String THING = "cases";

    private final CaseIntake intake;
    private final CaseWriter writer;
    private final CaseVersionRows rows;
    private final CaseTallyRows tallies;
    private final Centres centres;
    private final Revisions revisions;
    private final AuditTrail audit;
    private final TransactionTemplate transaction;
    private final Settings settings;

    Cases(
            CaseIntake intake,
            CaseWriter writer,
            CaseVersionRows rows,
            CaseTallyRows tallies,
            Centres centres,
            Revisions revisions,
            AuditTrail audit,
            TransactionTemplate transaction,
            Settings settings) {
        this.intake = intake;
        this.writer = writer;
        this.rows = rows;
        this.tallies = tallies;
        this.centres = centres;
        this.revisions = revisions;
        this.audit = audit;
        this.transaction = transaction;
        this.settings = settings;
    }

    /** The columns of a case in CSV (contract, section 9): the key, the leaves, and up to twelve attempts. */
    public static List<CsvColumn> columns() {
        return CaseColumns.csv();
    }

    /** Reads a case as its centre sends it, for {@link #submit}; all that is wrong with it comes back at once. */
    public Reading<KeyedCase> read(JsonNode body, String caseKey) {
        return intake.read(body, caseKey);
    }

    /** Stores a case as a new version, unless the same content is stored already. */
    @Transactional
    public Submission submit(String centre, KeyedCase sent, IfMatch ifMatch, Viewer viewer) {
        viewer.requireSubmitter();
        return centres.within(centre, viewer, () -> store(centre, sent, ifMatch, viewer));
    }

    private Submission store(String centre, KeyedCase sent, IfMatch ifMatch, Viewer viewer) {
        CaseWriter.CopyText text = writer.copyText(centre, 1, sent);
        writer.stage(bytes(text.caseLine()), bytes(text.attemptLines()));
        CaseWriter.Compared compared = writer.compare();
        Optional<StoredCase> head = rows.head(centre, sent.caseKey());
        if (head.isEmpty()) {
            if (ifMatch.given()) {
                return Submission.Refused.STALE;
            }
            writer.publish(viewer);
            audit.done(viewer, centre, AuditTrail.Action.CREATE, THING);
            return new Submission.Stored(stored(centre, sent), Submission.How.CREATED);
        }
        if (head.get().withdrawn() == Withdrawal.CONSENT_WITHDRAWN) {
            return Submission.Refused.CONSENT_WITHDRAWN;
        }
        if (compared.unchanged() == 1) {
            return new Submission.Stored(head.get(), Submission.How.UNCHANGED);
        }
        if (!ifMatch.given()) {
            return Submission.Refused.MATCH_REQUIRED;
        }
        if (!ifMatch.allows(head.get())) {
            return Submission.Refused.STALE;
        }
        writer.publish(viewer);
        audit.done(viewer, centre, AuditTrail.Action.CHANGE, THING);
        return new Submission.Stored(stored(centre, sent), Submission.How.CHANGED);
    }

    private StoredCase stored(String centre, KeyedCase sent) {
        return rows.head(centre, sent.caseKey()).orElseThrow();
    }

    private static InputStream bytes(String text) {
        return new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8));
    }

    /** Takes a case back; that is a version too, and earlier reports keep counting the case. */
    @Transactional
    public Submission withdraw(String centre, String caseKey, Withdrawal reason, IfMatch ifMatch, Viewer viewer) {
        viewer.requireSubmitter();
        return centres.within(centre, viewer, () -> takeBack(centre, caseKey, reason, ifMatch, viewer));
    }

    private Submission takeBack(String centre, String caseKey, Withdrawal reason, IfMatch ifMatch, Viewer viewer) {
        revisions.lock();
        Optional<StoredCase> head = rows.head(centre, caseKey);
        if (head.isEmpty() || head.get().withdrawn() != null) {
            return Submission.Refused.NOT_THERE;
        }
        if (!ifMatch.given()) {
            return Submission.Refused.MATCH_REQUIRED;
        }
        if (!ifMatch.allows(head.get())) {
            return Submission.Refused.STALE;
        }
        writer.withdraw(head.get(), reason, viewer);
        audit.done(viewer, centre, AuditTrail.Action.WITHDRAW, THING);
        return new Submission.Stored(rows.head(centre, caseKey).orElseThrow(), Submission.How.CHANGED);
    }

    /** The rows of a body, one case with its key a row: lines of NDJSON, or CSV (contract, section 9). */
    public static Consumer<Consumer<Row>> rows(boolean ndjson, InputStream body) {
        return ndjson ? each -> Rows.ndjson(body, each) : each -> Rows.csv(body, CaseColumns.csv(), each);
    }

    /** The refusal of a case that nobody has sent under its key, or that was withdrawn. */
    public static Refusal notThere() {
        return Problem.NOT_FOUND.refusal("There is no such case, or it was withdrawn.");
    }

    /** What a sender of many cases wants. */
    public record BulkMode(boolean keepValid, boolean onlyCheck) {}

    /**
     * Stores many cases in one transaction: all of them, or, where the mode keeps valid rows, all that are right. A row
     * whose case was withdrawn is refused, or a nightly export would bring back what was taken out on purpose.
     *
     * @param body hands every row to what it is given
     */
    public BulkOutcome submitMany(String centre, Consumer<Consumer<Row>> body, BulkMode mode, Viewer viewer) {
        viewer.requireSubmitter();
        centres.within(centre, viewer, () -> centre);
        try (CaseBatch batch = new CaseBatch(centre, intake, writer)) {
            body.accept(batch::add);
            return batch.isRefused(mode)
                    ? batch.outcome()
                    : transaction.execute(status -> centres.within(centre, viewer, () -> {
                        BulkOutcome outcome = batch.publish(mode, viewer);
                        if (outcome.stored()) {
                            audit.done(viewer, centre, AuditTrail.Action.SEND, THING);
                        } else {
                            status.setRollbackOnly();
                        }
                        return outcome;
                    }));
        }
    }

    /** The case as it stands; a withdrawn one is not there. */
    @Transactional(readOnly = true)
    public Optional<StoredCase> find(String centre, String caseKey, Viewer viewer) {
        return centres.within(
                centre, viewer, () -> rows.head(centre, caseKey).filter(head -> head.withdrawn() == null));
    }

    /** Every version of a case, oldest first, the one that withdrew it included. */
    @Transactional(readOnly = true)
    public List<StoredCase> versions(String centre, String caseKey, Viewer viewer) {
        return centres.within(centre, viewer, () -> rows.versions(centre, caseKey));
    }

    /** Every version of a case with who made it and when, oldest first. */
    @Transactional(readOnly = true)
    public List<CaseChange> history(String centre, String caseKey, Viewer viewer) {
        return centres.within(centre, viewer, () -> rows.history(centre, caseKey));
    }

    /** What a centre's keys hold now, by period, newest first. */
    @Transactional(readOnly = true)
    public List<CasesOfPeriod> received(String centre, Viewer viewer) {
        return centres.within(centre, viewer, () -> rows.received(centre));
    }

    /** One page of a centre's cases. */
    public record CasePage(DataCut dataCut, long page, long size, long total, List<StoredCase> cases) {}

    /** What came in last, newest first: of the own centre, or of the network for its steward. */
    @Transactional(readOnly = true)
    public List<NewVersion> newest(int most, Viewer viewer) {
        String own = viewer.centre();
        return centres.within(own == null ? List.of() : List.of(own), viewer, () -> rows.newest(own, most));
    }

    /** A centre's cases as of a revision, newest period first. */
    @Transactional(readOnly = true)
    public CasePage list(CaseQuery query, Viewer viewer) {
        return centres.within(query.centre(), viewer, () -> page(query));
    }

    private CasePage page(CaseQuery query) {
        if (query.filters().containsKey(Field.DEVICE_IDENTIFIER) && !settings.deviceIdentifier()) {
            throw Problem.refused(
                    List.of(new FieldError("/deviceIdentifier", "device-identifier-off", DeviceIdentifier.OFF)));
        }
        query.periods().forEach(period -> settings.requireResolution(Map.of("period", period)));
        DataCut cut = revisions.cut(query.asOf());
        return new CasePage(
                cut, query.page(), query.size(), rows.count(query, cut.revision()), rows.page(query, cut.revision()));
    }

    /** Events by cell and levels as of a revision, for the numerators of rates. */
    @Transactional(readOnly = true)
    public List<Tally> tally(DataCut cut, Selection selection, List<Factor> by) {
        return tallies(cut, selection, List.of(by)).get(0);
    }

    /** The same for several lists of factors at once, in their order: one look at the cases instead of one for each list. */
    @Transactional(readOnly = true)
    public List<List<Tally>> tallies(DataCut cut, Selection selection, List<List<Factor>> by) {
        return tallies.tallies(cut.revision(), selection, by);
    }

    /** How retrieval went, by technique, as of a revision. */
    @Transactional(readOnly = true)
    public List<RetrievalTally> retrieval(DataCut cut, PartialCase like, List<RetrievalSplit> by) {
        return tallies.retrieval(cut.revision(), like, by);
    }

    /** What came of the cases, by cell and levels as of a revision. */
    @Transactional(readOnly = true)
    public List<OutcomeTally> outcomes(DataCut cut, PartialCase like, List<Factor> by) {
        return tallies.outcomes(cut.revision(), like, by);
    }

    /** What is not known of the cases, by centre and period as of a revision. */
    @Transactional(readOnly = true)
    public List<CompletenessTally> completeness(DataCut cut, Selection selection) {
        return tallies.completeness(cut.revision(), selection);
    }

    /**
     * How many cases are like this one, as of a revision.
     *
     * @param own the centre whose cases are counted apart; null to count all as own
     */
    @Transactional(readOnly = true)
    public LikeCases count(DataCut cut, PartialCase like, @Nullable String own) {
        return tallies.count(cut.revision(), like, own);
    }

    /**
     * The techniques that were tried one after another in cases like this, most frequent first. What was seen in one case
     * only is cut off after {@link SequenceTally#MOST_SEEN_ONCE}.
     *
     * @param own the centre whose cases are counted apart; null to count all as own
     */
    @Transactional(readOnly = true)
    public List<SequenceTally> sequences(DataCut cut, PartialCase like, @Nullable String own) {
        return tallies.sequences(cut.revision(), like, own);
    }

    /** Released cases like this by the minutes from entrapment to release, those that state them. */
    @Transactional(readOnly = true)
    public SortedMap<Long, Long> minutesToRelease(DataCut cut, PartialCase like) {
        return tallies.minutesToRelease(cut.revision(), like);
    }
}
