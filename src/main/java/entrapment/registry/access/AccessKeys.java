package entrapment.registry.access;

import entrapment.registry.intake.Fingerprint;
import entrapment.registry.intake.Problem;
import entrapment.registry.vocabulary.Code;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.data.domain.Sort;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * The keys with which people and systems ask: 256 random bits, shown once, stored as their SHA-256. Each is for one role
 * at one centre, ends by itself, and can be replaced while both are good for a time. Who is signed in by the network's
 * own issuer stands among them, without a key.
 */
@Component
@Transactional
public class AccessKeys {

    /** How long a key is good unless said otherwise; a year, so that somebody looks at it once a year. */
    public static final long DEFAULT_DAYS = 365;

    private static final String THING = "keys";

    /** How ids begin: of what has a key, and of who is signed in without one. */
    private static final String WITH_KEY = "key-";

    private static final String SIGNED_IN = "sso-";

    /** Of single sign-on each token says for itself when it ends. */
    private static final Instant NEVER = Instant.parse("9999-12-31T00:00:00Z");

    /** Two requests may both be somebody's first. */
    private static final String SIGN_IN = """
            insert into access_key (id, hash, role, centre, label, created_at, expires_at)
            select :id, :hash, :role, :centre, 'single sign-on', :now, :never
            where cast(:centre as text) is null or exists (select from centre where code = :centre)
            on conflict (hash) do nothing""";

    private final AccessKeyEntities entities;
    private final Centres centres;
    private final Revisions revisions;
    private final RowSecurityScope scope;
    private final AuditTrail audit;
    private final JdbcClient jdbc;
    private final Clock clock;
    private final SecureRandom random = new SecureRandom();

    AccessKeys(
            AccessKeyEntities entities,
            Centres centres,
            Revisions revisions,
            RowSecurityScope scope,
            AuditTrail audit,
            JdbcClient jdbc,
            Clock clock) {
        this.entities = entities;
        this.centres = centres;
        this.revisions = revisions;
        this.scope = scope;
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
        return scope.forTheNetwork(() -> entities.findAll(Sort.by("createdAt", "id")).stream()
                .map(AccessKeyEntity::toKnown)
                .toList());
    }

    /** Makes a key for one centre. */
    public Issued issue(String centre, Role role, String label, long days, Viewer viewer) {
        viewer.requireSteward();
        return centres.within(
                centre, viewer, () -> make(role, centre, label, days, null, AuditTrail.Action.ISSUE, viewer));
    }

    /** Makes a further key for the steward, so that a lost or leaked one can be replaced. */
    public Issued issueSteward(String label, long days, Viewer viewer) {
        viewer.requireSteward();
        return scope.forTheNetwork(() -> make(Role.STEWARD, null, label, days, null, AuditTrail.Action.ISSUE, viewer));
    }

    /**
     * Makes a key in the place of another, for the same role and centre; the old one stays good for some days, so that a
     * system can change over without a gap.
     */
    public Issued rotate(String id, long days, long overlapDays, Viewer viewer) {
        return withKey(id, viewer, old -> {
            if (!old.isGoodAt(now()) || isSingleSignOn(old)) {
                throw Problem.NOT_FOUND.refusal("That key has ended, or is none; make a new one.");
            }
            Issued issued = make(old.role(), old.centre(), old.label(), days, id, AuditTrail.Action.ROTATE, viewer);
            old.expireBy(now().plus(overlapDays, ChronoUnit.DAYS));
            return issued;
        });
    }

    /** Ends a key at once. The last steward key stays, or nobody could run the network. */
    public void revoke(String id, Viewer viewer) {
        withKey(id, viewer, key -> {
            if (key.isSteward() && !isSingleSignOn(key) && goodStewardKeys() <= 1) {
                throw Problem.NOT_YOUR_ROLE.refusal("The last steward key cannot be revoked; make another one first.");
            }
            key.revoke(now());
            audit.done(viewer, key.centre(), AuditTrail.Action.REVOKE, THING);
            return key;
        });
    }

    /** Does a piece of work with one key, while no other change is under way. */
    private <T> T withKey(String id, Viewer viewer, Function<AccessKeyEntity, T> work) {
        viewer.requireSteward();
        return scope.forTheNetwork(() -> {
            revisions.lock();
            return work.apply(
                    entities.findById(id).orElseThrow(() -> Problem.NOT_FOUND.refusal("There is no such key.")));
        });
    }

    /** Who holds this key, unless it was never made, has ended or has been revoked. */
    public Optional<Viewer> viewer(String key) {
        return holder(Fingerprint.bytes(key));
    }

    /**
     * Who somebody is whom the network's issuer has signed in. What was done must have a doer and the steward must be
     * able to end it, so each combination gets a row of its own when it is first seen; it holds a fingerprint of the
     * subject, and no name.
     *
     * @param subject as the issuer calls the person
     * @param centre null for the steward and for nobody else
     * @return empty if the centre is not in the network, or the steward has revoked the row
     */
    public Optional<Viewer> signedIn(String issuer, String subject, Role role, @Nullable String centre) {
        if ((role == Role.STEWARD) != (centre == null) || (centre != null && !Centre.isCode(centre))) {
            return Optional.empty();
        }
        byte[] hash = hash(issuer, subject, role, centre);
        Optional<Viewer> known = holder(hash);
        if (known.isPresent()) {
            return known;
        }
        Viewer viewer = new Viewer(SIGNED_IN + text(9), role, centre);
        return centre == null
                ? scope.forTheNetwork(() -> signIn(viewer, hash))
                : scope.within(List.of(centre), () -> signIn(viewer, hash));
    }

    private Optional<Viewer> signIn(Viewer viewer, byte[] hash) {
        int made = jdbc.sql(SIGN_IN)
                .param("id", viewer.keyId())
                .param("hash", hash)
                .param("role", viewer.role().code())
                .param("centre", viewer.centre())
                .param("now", OffsetDateTime.ofInstant(now(), ZoneOffset.UTC))
                .param("never", OffsetDateTime.ofInstant(NEVER, ZoneOffset.UTC))
                .update();
        if (made > 0) {
            audit.done(viewer, viewer.centre(), AuditTrail.Action.ISSUE, THING);
        }
        return holder(hash);
    }

    /** Whether the key with which a session was opened, or the single sign-on, is still good. */
    public boolean isGood(Viewer viewer) {
        return jdbc.sql("select key_still_good(:id, :now)")
                .param("id", viewer.keyId())
                .param("now", OffsetDateTime.ofInstant(now(), ZoneOffset.UTC))
                .query(Boolean.class)
                .single();
    }

    private static boolean isSingleSignOn(AccessKeyEntity key) {
        return key.id().startsWith(SIGNED_IN);
    }

    private Optional<Viewer> holder(byte[] hash) {
        return jdbc.sql("select id, role, centre from key_holder(:hash, :now)")
                .param("hash", hash)
                .param("now", OffsetDateTime.ofInstant(now(), ZoneOffset.UTC))
                .query((row, number) -> new Viewer(
                        row.getString("id"),
                        Code.of(Role.class, row.getString("role")).orElseThrow(),
                        row.getString("centre")))
                .optional();
    }

    /** A steward key for a registry that has none that is good, as when it is new; otherwise empty. */
    public Optional<Issued> makeFirst() {
        return scope.forTheNetwork(() -> {
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
        });
    }

    /** The steward in whose name the service acts when it fills an empty registry; empty before {@link #makeFirst}. */
    @Transactional(readOnly = true)
    public Optional<Viewer> steward() {
        return scope.forTheNetwork(
                () -> entities.findFirstByRoleAndIdStartingWithAndRevokedAtIsNullAndExpiresAtAfterOrderByCreatedAt(
                                Role.STEWARD.code(), WITH_KEY, now())
                        .map(AccessKeyEntity::toViewer));
    }

    /** Without single sign-on, which may be switched off. */
    private long goodStewardKeys() {
        return entities.countByRoleAndIdStartingWithAndRevokedAtIsNullAndExpiresAtAfter(
                Role.STEWARD.code(), WITH_KEY, now());
    }

    private Issued make(
            Role role,
            @Nullable String centre,
            String label,
            long days,
            @Nullable String replaces,
            AuditTrail.Action action,
            @Nullable Viewer viewer) {
        String id = WITH_KEY + text(9);
        String key = text(32);
        Instant expiresAt = now().plus(days, ChronoUnit.DAYS);
        // A plain hash is enough: a key is not chosen by a person, so there is nothing to guess.
        entities.saveAndFlush(
                new AccessKeyEntity(id, Fingerprint.bytes(key), role, centre, label, now(), expiresAt, replaces));
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

    /**
     * Of four texts, of which only the last may hold a NUL. Before them stands a byte that no text in UTF-8 has, so that
     * nothing that is sent as a key has this hash.
     */
    private static byte[] hash(String issuer, String subject, Role role, @Nullable String centre) {
        byte[] text = String.join("\0", role.code(), centre == null ? "" : centre, issuer, subject)
                .getBytes(StandardCharsets.UTF_8);
        return Fingerprint.bytes(
                ByteBuffer.allocate(1 + text.length).put((byte) 0xFF).put(text).array());
    }
}
