package entrapment.registry.cases;

/**
 * A question to the sender of a stored case, which may be right as it is.
 *
 * @param rule the id of the querying rule
 * @param pointer where to look again, as an RFC 6901 JSON pointer
 * @param detail the rule in a sentence
 */
public record DataQuery(String rule, String pointer, String detail) {}
