package entrapment.registry.access;

import entrapment.registry.intake.Fingerprint;
import entrapment.registry.intake.Problem;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Sort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * The keys with which people and systems ask: 256 random bits, shown once, stored as their SHA-256. Each is for one role
 * at one centre, ends by itself, and can be replaced while both are good for a time.
 */
@Component
@Transactional
public class AccessKeys {

    /** How long a key is good unless said otherwise; a year, so that somebody looks at it once a year. */
    public static final long DEFAULT_DAYS = 365;

    private static final String THING = "keys";

    private final AccessKeyEntities entities;
    private final Centres centres;
    private final Revisions revisions;
    private final RowsInView view;
    private final AuditTrail audit;
    private final JdbcClient jdbc;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    AccessKeys(
            AccessKeyEntities entities,
            Centres centres,
            Revisions revisions,
            RowsInView view,
            AuditTrail audit,
            JdbcClient jdbc,
            Clock clock) {
        this.entities = entities;
        this.centres = centres;
        this.revisions = revisions;
        this.view = view;
        this.audit = audit;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** A key as it is shown the only time. */
    public record Issued(
            String id, String key, Role role, @Nullable String centre, String label, Instant expiresAt) {}

    /**
     * What is known of a key once it has been shown.
     *
     * @param revokedAt null unless it was ended by hand
     * @param lastUsedAt to the hour; null if it never was
     * @param replaces the key in whose place it was made
     */
    public record Known(
            String id,
            Role role,
            @Nullable String centre,
            String label,
            Instant createdAt,
            Instant expiresAt,
            @Nullable Instant revokedAt,
            @Nullable Instant lastUsedAt,
            @Nullable String replaces) {}

    /** Every key ever made, oldest first. */
    @Transactional(readOnly = true)
    public List<Known> list(Viewer viewer) {
        viewer.requireSteward();
        view.ofTheNetwork();
        return entities.findAll(Sort.by("createdAt", "id")).stream()
                .map(AccessKeyEntity::toKnown)
                .toList();
    }

    /** Makes a key for one centre. */
    public Issued issue(String centre, Role role, String label, long days, Viewer viewer) {
        viewer.requireSteward();
        centres.require(centre, viewer);
        return make(role, centre, label, days, null, AuditTrail.Action.ISSUE, viewer);
    }

    /** Makes a further key for the steward, so that a lost or leaked one can be replaced. */
    public Issued issueSteward(String label, long days, Viewer viewer) {
        viewer.requireSteward();
        view.ofTheNetwork();
        return make(Role.STEWARD, null, label, days, null, AuditTrail.Action.ISSUE, viewer);
    }

    /**
     * Makes a key in the place of another, for the same role and centre; the old one stays good for some days, so that a
     * system can change over without a gap.
     */
    public Issued rotate(String id, long days, long overlapDays, Viewer viewer) {
        AccessKeyEntity old = find(id, viewer);
        if (!old.isGoodAt(now())) {
            throw Problem.NOT_FOUND.refusal("That key has ended; make a new one.");
        }
        Issued issued = make(old.role(), old.centre(), old.label(), days, id, AuditTrail.Action.ROTATE, viewer);
        old.expireBy(now().plus(overlapDays, ChronoUnit.DAYS));
        return issued;
    }

    /** Ends a key at once. The last steward key stays, or nobody could run the network. */
    public void revoke(String id, Viewer viewer) {
        AccessKeyEntity key = find(id, viewer);
        if (key.isSteward() && goodStewardKeys() <= 1) {
            throw Problem.NOT_YOUR_ROLE.refusal("The last steward key cannot be revoked; make another one first.");
        }
        key.revoke(now());
        audit.done(viewer, key.centre(), AuditTrail.Action.REVOKE, THING);
    }

    private AccessKeyEntity find(String id, Viewer viewer) {
        viewer.requireSteward();
        view.ofTheNetwork();
        revisions.lock();
        return entities.findById(id).orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such key."));
    }

    /** Who holds this key, unless it was never made, has ended or has been revoked. */
    public Optional<Viewer> viewer(String key) {
        return jdbc.sql("select id, role, centre from key_holder(:hash, :now)")
                .param("hash", hash(key))
                .param("now", OffsetDateTime.ofInstant(now(), ZoneOffset.UTC))
                .query((row, number) ->
                        new Viewer(row.getString("id"), Role.of(row.getString("role")), row.getString("centre")))
                .optional();
    }

    /** A steward key for a registry that has none that is good, as when it is new; otherwise empty. */
    public Optional<Issued> makeFirst() {
        view.ofTheNetwork();
        revisions.lock();
        return goodStewardKeys() > 0
                ? Optional.empty()
                : Optional.of(make(
                        Role.STEWARD,
                        null,
                        "steward key of the start",
                        DEFAULT_DAYS,
                        null,
                        AuditTrail.Action.ISSUE,
                        null));
    }

    /** The steward in whose name the service acts when it fills an empty registry; empty before {@link #makeFirst}. */
    @Transactional(readOnly = true)
    public Optional<Viewer> steward() {
        view.ofTheNetwork();
        return entities.findFirstByRoleAndRevokedAtIsNullAndExpiresAtAfterOrderByCreatedAt(Role.STEWARD.code(), now())
                .map(AccessKeyEntity::toViewer);
    }

    private long goodStewardKeys() {
        return entities.countByRoleAndRevokedAtIsNullAndExpiresAtAfter(Role.STEWARD.code(), now());
    }

    private Issued make(
            Role role,
            @Nullable String centre,
            String label,
            long days,
            @Nullable String replaces,
            AuditTrail.Action action,
            @Nullable Viewer viewer) {
        String id = "key-" + text(9);
        String key = text(32);
        Instant expiresAt = now().plus(days, ChronoUnit.DAYS);
        entities.saveAndFlush(new AccessKeyEntity(id, hash(key), role, centre, label, now(), expiresAt, replaces));
        audit.done(viewer, centre, action, THING);
        return new Issued(id, key, role, centre, label, expiresAt);
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
