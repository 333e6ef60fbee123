package entrapment.registry.cases;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.vocabulary.Code;

/** Why a case was taken back. */
public enum Withdrawal implements Code {
    ENTERED_IN_ERROR("entered-in-error", "Entered in error", "The case never happened or is not an entrapment."),
    DUPLICATE("duplicate", "Duplicate", "The same entrapment is registered under another key."),
    CONSENT_WITHDRAWN("consent-withdrawn", "Consent withdrawn", "The patient no longer agrees; it stays withdrawn.");

    private final String code;
    private final String label;
    private final String definition;

    Withdrawal(String code, String label, String definition) {
        this.code = code;
        this.label = label;
        this.definition = definition;
    }

    @Override
    @JsonValue
    public String code() {
        return code;
    }

    @Override
    public String label() {
        return label;
    }

    @Override
    public String definition() {
        return definition;
    }

    @Override
    public String source() {
        return "registry convention";
    }
}
