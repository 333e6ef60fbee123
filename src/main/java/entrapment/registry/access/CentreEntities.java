package entrapment.registry.access;

import java.util.Collection;
import org.springframework.data.jpa.repository.JpaRepository;

interface CentreEntities extends JpaRepository<CentreEntity, String> {

    long countByCodeIn(Collection<String> codes);
}
