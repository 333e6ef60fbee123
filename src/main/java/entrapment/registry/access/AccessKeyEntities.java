package entrapment.registry.access;

import java.time.Instant;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface AccessKeyEntities extends JpaRepository<AccessKeyEntity, String> {

    Optional<AccessKeyEntity> findFirstByRoleAndIdStartingWithAndRevokedAtIsNullAndExpiresAtAfterOrderByCreatedAt(
            String role, String id, Instant moment);

    long countByRoleAndIdStartingWithAndRevokedAtIsNullAndExpiresAtAfter(String role, String id, Instant moment);
}
