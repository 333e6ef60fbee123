package entrapment.registry.access;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;

@Entity
@Table(name = "centre")
class CentreEntity {

    @Id
    private String code;

    private String name;

    @Column(updatable = false)
    private Instant createdAt;

    CentreEntity(String code, String name, Instant createdAt) {
        this.code = code;
        this.name = name;
        this.createdAt = createdAt;
    }

    /** For the persistence provider. */
    protected CentreEntity() {
        this("", "", Instant.EPOCH);
    }

    String code() {
        return code;
    }

    void rename(String to) {
        name = to;
    }

    Centre toCentre() {
        return new Centre(code, name, createdAt);
    }
}
