package entrapment.registry.access;

import entrapment.registry.intake.Problem;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Sort;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The centres of the network. */
@Component
@Transactional
public class Centres {

    private final CentreEntities entities;
    private final Clock clock;

    Centres(CentreEntities entities, Clock clock) {
        this.entities = entities;
        this.clock = clock;
    }

    /**
     * Takes a centre into the network, or renames it.
     *
     * @return whether it is new
     */
    public boolean put(String code, String name, Viewer viewer) {
        viewer.requireSteward();
        Optional<CentreEntity> stored = entities.findById(code);
        if (stored.isPresent()) {
            stored.get().rename(name);
            return false;
        }
        entities.save(new CentreEntity(code, name, clock.instant().truncatedTo(ChronoUnit.MILLIS)));
        return true;
    }

    /** The centres that the viewer may know by name, by code. */
    @Transactional(readOnly = true)
    public List<Centre> list(Viewer viewer) {
        return entities.findAll(Sort.by("code")).stream()
                .filter(centre -> viewer.isSteward() || centre.code().equals(viewer.centre()))
                .map(CentreEntity::toCentre)
                .toList();
    }

    /** Refuses a centre that is not the viewer's own, or that is not in the network. */
    @Transactional(readOnly = true)
    public void require(String code, Viewer viewer) {
        viewer.requireOwn(code);
        if (!entities.existsById(code)) {
            throw Problem.NOT_FOUND.refusal("There is no such centre in the network.");
        }
    }
}
