package entrapment.registry.access;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

@Entity
@Table(name = "access_key")
class AccessKeyEntity {

    @Id
    private String id;

    @SuppressWarnings("UnusedVariable") // read by the query that looks a key up
    private byte[] hash;

    private String role;

    private @Nullable String centre;

    private String label;

    private Instant createdAt;

    private @Nullable Instant revokedAt;

    AccessKeyEntity(String id, byte[] hash, Role role, @Nullable String centre, String label, Instant createdAt) {
        this.id = id;
        this.hash = hash;
        this.role = role.code();
        this.centre = centre;
        this.label = label;
        this.createdAt = createdAt;
    }

    /** For the persistence provider. */
    protected AccessKeyEntity() {
        this("", new byte[0], Role.SUBMITTER, null, "", Instant.EPOCH);
    }

    void revoke(Instant now) {
        if (revokedAt == null) {
            revokedAt = now;
        }
    }

    boolean isSteward() {
        return role.equals(Role.STEWARD.code());
    }

    Viewer toViewer() {
        return new Viewer(id, role(), centre);
    }

    AccessKeys.Known toKnown() {
        return new AccessKeys.Known(id, role(), centre, label, createdAt, revokedAt);
    }

    private Role role() {
        return Arrays.stream(Role.values())
                .filter(candidate -> candidate.code().equals(role))
                .findFirst()
                .orElseThrow();
    }
}
