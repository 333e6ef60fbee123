package entrapment.registry.cases;

import entrapment.registry.vocabulary.Code;

/** Why a case was taken back. */
public enum Withdrawal implements Code {
    ENTERED_IN_ERROR("entered-in-error", "Entered in error", "The case never happened or is not an entrapment."),
    DUPLICATE("duplicate", "Duplicate", "The same entrapment is registered under another key."),
    CONSENT_WITHDRAWN("consent-withdrawn", "Consent withdrawn", "The patient no longer agrees; it stays withdrawn.");

    private final Coding coding;

    Withdrawal(String code, String label, String definition) {
        coding = new Coding(code, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
