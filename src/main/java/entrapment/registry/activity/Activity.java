package entrapment.registry.activity;

import entrapment.registry.access.AuditTrail;
import entrapment.registry.access.Centres;
import entrapment.registry.access.DataCut;
import entrapment.registry.access.Revisions;
import entrapment.registry.access.Viewer;
import entrapment.registry.intake.CsvColumn;
import entrapment.registry.intake.Fingerprint;
import entrapment.registry.intake.Reading;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Period;
import entrapment.registry.vocabulary.Selection;
import entrapment.registry.vocabulary.Tally;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.JsonNode;

/** The activity returns of the network: the denominators of every rate. */
@Component
@Transactional
public class Activity {

    private final ReturnEntities entities;
    private final ActivityRows rows;
    private final Centres centres;
    private final Revisions revisions;
    private final ReturnIntake intake;
    private final AuditTrail audit;

    Activity(
            ReturnEntities entities,
            ActivityRows rows,
            Centres centres,
            Revisions revisions,
            ReturnIntake intake,
            AuditTrail audit) {
        this.entities = entities;
        this.rows = rows;
        this.centres = centres;
        this.revisions = revisions;
        this.intake = intake;
        this.audit = audit;
    }

    /** The columns of a return in CSV (contract, section 4). */
    public static List<CsvColumn> columns() {
        return ReturnIntake.COLUMNS;
    }

    /** Reads a return sent as JSON: an object whose {@code rows} is an array of counts, or the array alone. */
    public Reading<ActivityReturn> readJson(JsonNode body, String period) {
        return intake.readJson(body, period);
    }

    /** Reads a return sent as CSV (contract, section 4). */
    public CsvReading readCsv(InputStream body, String period) {
        return intake.readCsv(body, period);
    }

    /** The result of sending a return. */
    public record Sent(StoredReturn stored, boolean first) {}

    /** Replaces the whole return of a period; the same return again changes nothing. */
    public Sent submit(String centre, ActivityReturn sent, Viewer viewer) {
        viewer.requireSubmitter();
        return centres.within(centre, viewer, () -> replace(centre, sent, viewer));
    }

    private Sent replace(String centre, ActivityReturn sent, Viewer viewer) {
        revisions.lock();
        Optional<ReturnEntity> stored = entities.findFirstByCentreAndPeriodOrderByRevisionDesc(
                centre, sent.period().toString());
        String hash = Fingerprint.hex(sent.toString());
        if (stored.isEmpty() || !stored.get().holds(hash)) {
            int version = stored.map(ReturnEntity::version).orElse(0) + 1;
            entities.saveAndFlush(new ReturnEntity(revisions.take(1, viewer), centre, sent, version, hash));
            audit.done(
                    viewer, centre, stored.isEmpty() ? AuditTrail.Action.CREATE : AuditTrail.Action.CHANGE, "activity");
        }
        return new Sent(find(centre, sent.period()).orElseThrow(), stored.isEmpty());
    }

    private Optional<StoredReturn> find(String centre, Period period) {
        return rows.returns(centre).stream()
                .filter(stored -> stored.period().equals(period))
                .findFirst();
    }

    /** The returns in force, oldest period first. */
    @Transactional(readOnly = true)
    public List<StoredReturn> list(String centre, Viewer viewer) {
        return centres.within(centre, viewer, () -> rows.returns(centre));
    }

    /** A return with its rows as they are sent. */
    public record Full(StoredReturn stored, List<Map<String, Object>> rows) {}

    /** The return in force of a period. */
    @Transactional(readOnly = true)
    public Optional<Full> find(String centre, String period, Viewer viewer) {
        return centres.within(centre, viewer, () -> Period.parse(period)
                .flatMap(asked -> find(centre, asked))
                .map(stored -> new Full(stored, rows.counts(stored.revision()))));
    }

    /** Uses by cell and levels as of a revision, for the denominators of rates. */
    @Transactional(readOnly = true)
    public List<Tally> tally(DataCut cut, Selection selection, List<Factor> by) {
        return tallies(cut, selection, List.of(by)).get(0);
    }

    /** The same for several lists of factors at once, in their order: one look at the returns instead of one for each list. */
    @Transactional(readOnly = true)
    public List<List<Tally>> tallies(DataCut cut, Selection selection, List<List<Factor>> by) {
        return rows.tallies(cut.revision(), selection, by);
    }

    /**
     * The returns in force as of a revision, by centre, oldest period first.
     *
     * @param of the centres; empty for every one
     */
    @Transactional(readOnly = true)
    public List<StoredReturn> returns(DataCut cut, List<String> of) {
        return rows.returns(cut.revision(), of);
    }
}
