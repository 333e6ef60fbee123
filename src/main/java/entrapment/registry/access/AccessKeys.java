package entrapment.registry.access;

import entrapment.registry.intake.Fingerprint;
import entrapment.registry.intake.Problem;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Sort;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/** The keys with which people and systems ask: 256 random bits, shown once, stored as their SHA-256. */
@Component
@Transactional
public class AccessKeys {

    private final AccessKeyEntities entities;
    private final Centres centres;
    private final Revisions revisions;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    AccessKeys(AccessKeyEntities entities, Centres centres, Revisions revisions, Clock clock) {
        this.entities = entities;
        this.centres = centres;
        this.revisions = revisions;
        this.clock = clock;
    }

    /** A key as it is shown the only time. */
    public record Issued(
            String id, String key, Role role, @Nullable String centre, String label) {}

    /** What is known of a key once it has been shown; {@code revokedAt} is null while it is good. */
    public record Known(
            String id,
            Role role,
            @Nullable String centre,
            String label,
            Instant createdAt,
            @Nullable Instant revokedAt) {}

    /** Every key ever made, oldest first. */
    @Transactional(readOnly = true)
    public List<Known> list(Viewer viewer) {
        viewer.requireSteward();
        return entities.findAll(Sort.by("createdAt", "id")).stream()
                .map(AccessKeyEntity::toKnown)
                .toList();
    }

    /** Makes a key for one centre. */
    public Issued issue(String centre, Role role, String label, Viewer viewer) {
        viewer.requireSteward();
        centres.require(centre, viewer);
        return make(role, centre, label);
    }

    /** Makes a further key for the steward, so that a lost or leaked one can be replaced. */
    public Issued issueSteward(String label, Viewer viewer) {
        viewer.requireSteward();
        return make(Role.STEWARD, null, label);
    }

    /** Ends a key at once. The last steward key stays, or nobody could run the network. */
    public void revoke(String id, Viewer viewer) {
        viewer.requireSteward();
        revisions.lock();
        AccessKeyEntity key =
                entities.findById(id).orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such key."));
        if (key.isSteward() && entities.countByRoleAndRevokedAtIsNull(Role.STEWARD.code()) <= 1) {
            throw Problem.NOT_YOUR_ROLE.refusal("The last steward key cannot be revoked; make another one first.");
        }
        key.revoke(now());
    }

    /** Who holds this key, unless it was never made or has been revoked. */
    @Transactional(readOnly = true)
    public Optional<Viewer> viewer(String key) {
        return entities.findByHashAndRevokedAtIsNull(hash(key)).map(AccessKeyEntity::toViewer);
    }

    /** The steward key of an empty registry; empty once any key has been made. */
    public Optional<Issued> makeFirst() {
        revisions.lock();
        return entities.count() > 0 ? Optional.empty() : Optional.of(make(Role.STEWARD, null, "first steward key"));
    }

    /** The steward in whose name the service acts when it fills an empty registry; empty before {@link #makeFirst}. */
    @Transactional(readOnly = true)
    public Optional<Viewer> steward() {
        return entities.findFirstByRoleAndRevokedAtIsNullOrderByCreatedAt(Role.STEWARD.code())
                .map(AccessKeyEntity::toViewer);
    }

    private Issued make(Role role, @Nullable String centre, String label) {
        String id = "key-" + text(9);
        String key = text(32);
        entities.save(new AccessKeyEntity(id, hash(key), role, centre, label, now()));
        return new Issued(id, key, role, centre, label);
    }

    private String text(int bytes) {
        byte[] value = new byte[bytes];
        random.nextBytes(value);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(value);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MILLIS);
    }

    /** A plain hash is enough: a key is not chosen by a person, so there is nothing to guess. */
    private static byte[] hash(String key) {
        return Fingerprint.bytes(key);
    }
}
