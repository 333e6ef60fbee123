package entrapment.registry.stats;

/**
 * Why a figure of an answer is missing, infinite or to be read with care.
 *
 * @param code for programs
 * @param text for people: one plain sentence
 */
public record Note(NoteCode code, String text) {

    /** The sentence with its code behind it, for programs. */
    public String withCode() {
        return text + " (" + code + ")";
    }
}
