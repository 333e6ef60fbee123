package entrapment.registry.access;

import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

interface AccessKeyEntities extends JpaRepository<AccessKeyEntity, String> {

    Optional<AccessKeyEntity> findByHashAndRevokedAtIsNull(byte[] hash);

    Optional<AccessKeyEntity> findFirstByRoleAndRevokedAtIsNullOrderByCreatedAt(String role);

    long countByRoleAndRevokedAtIsNull(String role);
}
