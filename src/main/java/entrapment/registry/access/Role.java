package entrapment.registry.access;

import entrapment.registry.vocabulary.Code;
import java.util.Arrays;

/** What a key may do. */
public enum Role implements Code {
    SUBMITTER("submitter", "Submitter", "Sends and reads the cases and returns of one centre."),
    ANALYST("analyst", "Analyst", "Reads one centre, and network figures in which other centres are masked."),
    STEWARD("steward", "Steward", "Runs the network and may act on every centre.");

    private final String code;
    private final String label;
    private final String definition;

    Role(String code, String label, String definition) {
        this.code = code;
        this.label = label;
        this.definition = definition;
    }

    /** The role of this code, one that is stored. */
    public static Role of(String code) {
        return Arrays.stream(values())
                .filter(role -> role.code.equals(code))
                .findFirst()
                .orElseThrow();
    }

    @Override
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
