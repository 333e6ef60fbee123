package entrapment.registry.access;

import entrapment.registry.vocabulary.Code;

/** What a key may do. */
public enum Role implements Code {
    SUBMITTER("submitter", "Submitter", "Sends and reads the cases and returns of one centre."),
    ANALYST("analyst", "Analyst", "Reads one centre, and network figures in which other centres are masked."),
    STEWARD("steward", "Steward", "Runs the network and may act on every centre.");

    private final Coding coding;

    Role(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
