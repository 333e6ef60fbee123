package entrapment.registry.cases;

import entrapment.registry.vocabulary.Code;

/** Why a case was taken back. */
public enum Withdrawal implements Code {
    ENTERED_IN_ERROR("Entered in error", "The case never happened or is not an entrapment."),
    DUPLICATE("Duplicate", "The same entrapment is registered under another key."),
    CONSENT_WITHDRAWN("Consent withdrawn", "The patient no longer agrees; it stays withdrawn.");

    private final Coding coding;

    Withdrawal(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
