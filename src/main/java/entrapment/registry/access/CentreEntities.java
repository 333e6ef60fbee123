package entrapment.registry.access;

import org.springframework.data.jpa.repository.JpaRepository;

interface CentreEntities extends JpaRepository<CentreEntity, String> {}
