package entrapment.registry.access;

import entrapment.registry.vocabulary.Code;

/** What a key may do. */
public enum Role implements Code {
    SUBMITTER("Submitter", "Sends and reads the cases and returns of one centre."),
    ANALYST("Analyst", "Reads one centre, and network figures in which other centres are masked."),
    STEWARD("Steward", "Runs the network and may act on every centre.");

    private final Coding coding;

    Role(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
