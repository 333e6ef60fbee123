package entrapment.registry.access;

import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.springframework.data.domain.Sort;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The centres of the network. */
@Component
@Transactional
public class Centres {

    private static final String THING = "centres";

    private final CentreEntities entities;
    private final RowSecurityScope scope;
    private final AuditTrail audit;
    private final Clock clock;

    Centres(CentreEntities entities, RowSecurityScope scope, AuditTrail audit, Clock clock) {
        this.entities = entities;
        this.scope = scope;
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
        return scope.forTheNetwork(() -> store(code, name, viewer));
    }

    private boolean store(String code, String name, Viewer viewer) {
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
        List<String> own = viewer.centre() == null ? List.of() : List.of(viewer.centre());
        return open(own, viewer, () -> entities.findAll(Sort.by("code")).stream()
                .map(CentreEntity::toCentre)
                .toList());
    }

    /**
     * Does a piece of work that reads and writes the rows of one centre, and of no other. Refuses a centre that is not the
     * viewer's own, or that is not in the network.
     */
    public <T> T within(String code, Viewer viewer, Supplier<T> work) {
        return within(List.of(code), viewer, work);
    }

    /**
     * Does a piece of work with the rows of some centres.
     *
     * @param codes as {@link Viewer#sees} answers them; empty for the whole network
     */
    public <T> T within(List<String> codes, Viewer viewer, Supplier<T> work) {
        return open(codes, viewer, () -> {
            requireKnown(codes);
            return work.get();
        });
    }

    /**
     * As {@link #within(List, Viewer, Supplier)}, for all that this transaction does from now on.
     *
     * @param codes as {@link Viewer#sees} answers them; empty for the whole network
     */
    @Transactional(readOnly = true)
    public void require(List<String> codes, Viewer viewer) {
        requireOpen(codes, viewer);
        scope.fromNowOn(codes);
        requireKnown(codes);
    }

    private <T> T open(List<String> codes, Viewer viewer, Supplier<T> work) {
        requireOpen(codes, viewer);
        return codes.isEmpty() ? scope.forTheNetwork(work) : scope.within(codes, work);
    }

    private static void requireOpen(List<String> codes, Viewer viewer) {
        codes.forEach(viewer::requireOwn);
        if (codes.isEmpty() && viewer.role() == Role.SUBMITTER) {
            throw Problem.NOT_YOUR_ROLE.refusal("A submitter's key sees its own centre alone.");
        }
    }

    private void requireKnown(List<String> codes) {
        Set<String> distinct = Set.copyOf(codes);
        if (!distinct.isEmpty() && entities.countByCodeIn(distinct) < distinct.size()) {
            throw Problem.NOT_FOUND.refusal("There is no such centre in the network.");
        }
    }
}
