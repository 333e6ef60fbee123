package entrapment.registry.intake;

/**
 * Something wrong with one field of what a caller sent.
 *
 * @param pointer where, as an RFC 6901 JSON pointer
 * @param code what kind of error, stable and in kebab case
 * @param detail a sentence that names the field and the rule; never the value, which may identify someone
 */
public record FieldError(String pointer, String code, String detail) {}
