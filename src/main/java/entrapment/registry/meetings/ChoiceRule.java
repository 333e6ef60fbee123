package entrapment.registry.meetings;

import entrapment.registry.vocabulary.Code;

/** How the cases of a meeting are chosen, so that it does not look at the dramatic ones alone. */
public enum ChoiceRule implements Code {
    NONE("No case", "Figures only."),
    KIND("All of a kind", "Every case of one device class."),
    HARM_AT_LEAST("From a degree of harm on", "Every case with this degree of harm or a worse one."),
    RANDOM_SAMPLE("Random sample", "So many cases, drawn with a seed that the service has made.");

    private final Coding coding;

    ChoiceRule(String label, String definition) {
        coding = Coding.of(this, label, definition, "registry convention");
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
