package entrapment.registry.vocabulary;

/** The field {@code harm}: the WHO degree of harm that the entrapment and its retrieval did to the patient. */
public enum Harm implements Code {
    NONE("No harm", "No symptoms and no treatment beyond the retrieval itself.", Sources.WHO_HARM_READ),
    MILD(
            "Mild harm",
            "Mild, short-lived symptoms or loss; at most watching longer or minor treatment, such as "
                    + "vasodilator for slow flow.",
            Sources.WHO_HARM_READ),
    MODERATE(
            "Moderate harm",
            "Intervention beyond the retrieval, such as an unplanned stent, a longer stay, or lasting harm.",
            Sources.WHO_HARM_READ),
    SEVERE(
            "Severe harm",
            "Life-saving or major treatment, such as emergency surgery or drainage of tamponade, or major "
                    + "lasting harm.",
            Sources.WHO_HARM_READ),
    DEATH("Death", "On the balance of probabilities, death was caused or brought forward.", Sources.WHO_HARM);

    private final Coding coding;

    Harm(String label, String definition, String source) {
        coding = Coding.of(this, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
