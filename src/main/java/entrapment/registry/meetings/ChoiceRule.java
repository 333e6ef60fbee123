package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** How the cases of a meeting are chosen, so that it does not look at the dramatic ones alone. */
public enum ChoiceRule implements Code {
    NONE("none", "No case", "Figures only."),
    KIND("kind", "All of a kind", "Every case of one device class."),
    HARM_AT_LEAST("harm-at-least", "From a degree of harm on", "Every case with this degree of harm or a worse one."),
    RANDOM_SAMPLE("random-sample", "Random sample", "So many cases, drawn with a seed that the service has made.");

    private final String code;
    private final String label;
    private final String definition;

    ChoiceRule(String code, String label, String definition) {
        this.code = code;
        this.label = label;
        this.definition = definition;
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
