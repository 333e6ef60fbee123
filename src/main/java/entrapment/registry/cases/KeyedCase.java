package entrapment.registry.cases;

/** A case with its centre's own opaque key for it: 6 to 40 of {@code A-Z a-z 0-9 -}. */
public record KeyedCase(String caseKey, EntrapmentCase content) {}
