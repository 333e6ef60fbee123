package entrapment.registry.access;

import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.springframework.data.domain.Sort;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The centres of the network. */
@Component
@Transactional
public class Centres {

    private static final String THING = "centres";

    private final CentreEntities entities;
    private final RowSecurityScope view;
    private final AuditTrail audit;
    private final Clock clock;

    Centres(CentreEntities entities, RowSecurityScope view, AuditTrail audit, Clock clock) {
        this.entities = entities;
        this.view = view;
        this.audit = audit;
        this.clock = clock;
    }

    /**
     * Takes a centre into the network, or renames it.
     *
     * @return whether it is new
     */
    public boolean put(String code, String name, Viewer viewer) {
        viewer.requireSteward();
        view.ofTheNetwork();
        Optional<CentreEntity> stored = entities.findById(code);
        if (stored.isPresent()) {
            stored.get().rename(name);
            audit.done(viewer, code, AuditTrail.Action.CHANGE, THING);
            return false;
        }
        entities.saveAndFlush(new CentreEntity(code, name, clock.instant().truncatedTo(ChronoUnit.MILLIS)));
        audit.done(viewer, code, AuditTrail.Action.CREATE, THING);
        return true;
    }

    /** The centres that the viewer may know by name, by code. */
    @Transactional(readOnly = true)
    public List<Centre> list(Viewer viewer) {
        open(viewer.centre() == null ? List.of() : List.of(viewer.centre()), viewer);
        return entities.findAll(Sort.by("code")).stream()
                .filter(centre -> viewer.isSteward() || centre.code().equals(viewer.centre()))
                .map(CentreEntity::toCentre)
                .toList();
    }

    /**
     * Lets this transaction read and write the rows of one centre, and of no other. Refuses a centre that is not the
     * viewer's own, or that is not in the network.
     */
    @Transactional(readOnly = true)
    public void require(String code, Viewer viewer) {
        require(List.of(code), viewer);
    }

    /**
     * Lets this transaction read the rows that a report counts.
     *
     * @param codes as {@link Viewer#sees} answers them; empty for the whole network
     */
    @Transactional(readOnly = true)
    public void require(List<String> codes, Viewer viewer) {
        open(codes, viewer);
        Set<String> distinct = Set.copyOf(codes);
        if (!distinct.isEmpty() && entities.countByCodeIn(distinct) < distinct.size()) {
            throw Problem.NOT_FOUND.refusal("There is no such centre in the network.");
        }
    }

    private void open(List<String> codes, Viewer viewer) {
        codes.forEach(viewer::requireOwn);
        if (!codes.isEmpty()) {
            view.of(codes);
        } else if (viewer.role() == Role.SUBMITTER) {
            throw Problem.NOT_YOUR_ROLE.refusal("A submitter's key sees its own centre alone.");
        } else {
            view.ofTheNetwork();
        }
    }
}
