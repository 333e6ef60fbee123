package entrapment.registry.cases;

/** The result of sending, changing or withdrawing one case. */
public sealed interface Submission {

    /** The first version of a new case. */
    record Created(StoredCase stored) implements Submission {}

    /** A further version. */
    record Changed(StoredCase stored) implements Submission {}

    /** The same content was there already; no version was made. */
    record Unchanged(StoredCase stored) implements Submission {}

    /** A case is stored under this key, and the sender did not say which version is meant to be changed. */
    record MatchRequired() implements Submission {}

    /** The stored version is not the one the sender meant to change. */
    record Stale() implements Submission {}

    /** Nothing is stored under this key, or it is withdrawn already. */
    record NotThere() implements Submission {}

    /** The patient's consent was withdrawn; the case stays withdrawn. */
    record ConsentWithdrawn() implements Submission {}
}
