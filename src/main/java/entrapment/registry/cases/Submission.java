package entrapment.registry.cases;

/** The result of sending, changing or withdrawing one case. */
public sealed interface Submission {

    /** The case as it is stored now. */
    record Stored(StoredCase stored, How how) implements Submission {}

    /** What became of a case that is stored. */
    enum How {
        /** The first version of a new case. */
        CREATED,
        /** A further version. */
        CHANGED,
        /** The same content was there already; no version was made. */
        UNCHANGED
    }

    /** Why nothing was done. */
    enum Refused implements Submission {
        /** A case is stored under this key, and the sender did not say which version is meant to be changed. */
        MATCH_REQUIRED,
        /** The stored version is not the one the sender meant to change. */
        STALE,
        /** Nothing is stored under this key, or it is withdrawn already. */
        NOT_THERE,
        /** The patient's consent was withdrawn; the case stays withdrawn. */
        CONSENT_WITHDRAWN
    }
}
