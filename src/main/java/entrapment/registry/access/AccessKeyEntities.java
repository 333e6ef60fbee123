package entrapment.registry.access;

import java.time.Instant;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface AccessKeyEntities extends JpaRepository<AccessKeyEntity, String> {

    Optional<AccessKeyEntity> findFirstByRoleAndRevokedAtIsNullAndExpiresAtAfterOrderByCreatedAt(
            String role, Instant moment);

    long countByRoleAndRevokedAtIsNullAndExpiresAtAfter(String role, Instant moment);
}
