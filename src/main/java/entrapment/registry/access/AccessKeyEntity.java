package entrapment.registry.access;

import entrapment.registry.vocabulary.Code;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

@Entity
@Table(name = "access_key")
class AccessKeyEntity {

    @Id
    private String id;

    @Column(updatable = false)
    @SuppressWarnings("UnusedVariable") // read by the query that looks a key up
    private byte[] hash;

    @Column(updatable = false)
    private String role;

    @Column(updatable = false)
    private @Nullable String centre;

    @Column(updatable = false)
    private String label;

    @Column(updatable = false)
    private Instant createdAt;

    private Instant expiresAt;

    private @Nullable Instant revokedAt;

    /** Written by the database when a key is shown. */
    @Column(insertable = false, updatable = false)
    private @Nullable Instant lastUsedAt;

    @Column(updatable = false)
    private @Nullable String replaces;

    AccessKeyEntity(
            String id,
            byte[] hash,
            Role role,
            @Nullable String centre,
            String label,
            Instant createdAt,
            Instant expiresAt,
            @Nullable String replaces) {
        this.id = id;
        this.hash = hash;
        this.role = role.code();
        this.centre = centre;
        this.label = label;
        this.createdAt = createdAt;
        this.expiresAt = expiresAt;
        this.replaces = replaces;
    }

    /** For the persistence provider. */
    protected AccessKeyEntity() {
        this("", new byte[0], Role.SUBMITTER, null, "", Instant.EPOCH, Instant.EPOCH, null);
    }

    void revoke(Instant now) {
        if (revokedAt == null) {
            revokedAt = now;
        }
    }

    /** Ends the key at a moment, unless it ends before. */
    void expireBy(Instant moment) {
        if (moment.isBefore(expiresAt)) {
            expiresAt = moment;
        }
    }

    boolean isGoodAt(Instant moment) {
        return revokedAt == null && moment.isBefore(expiresAt);
    }

    String id() {
        return id;
    }

    @Nullable
    String centre() {
        return centre;
    }

    String label() {
        return label;
    }

    boolean isSteward() {
        return role.equals(Role.STEWARD.code());
    }

    Viewer toViewer() {
        return new Viewer(id, role(), centre);
    }

    AccessKeys.Known toKnown() {
        return new AccessKeys.Known(id, role(), centre, label, createdAt, expiresAt, revokedAt, lastUsedAt, replaces);
    }

    Role role() {
        return Code.of(Role.class, role).orElseThrow();
    }
}
