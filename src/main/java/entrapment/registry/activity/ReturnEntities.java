package entrapment.registry.activity;

import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface ReturnEntities extends JpaRepository<ReturnEntity, Long> {

    Optional<ReturnEntity> findFirstByCentreAndPeriodOrderByRevisionDesc(String centre, String period);
}
