package entrapment.registry.intake;

/** The body is not JSON, NDJSON or CSV at all, so there are no fields to point at. Answered with 400. */
public final class UnreadableBody extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** @param rule what was expected and where it failed, without any part of the body */
    public UnreadableBody(String rule) {
        super(rule);
    }
}
