package entrapment.registry.vocabulary;

/**
 * The field {@code result}: what one attempt came to, judged before the next; leaving or covering a device frees
 * nothing.
 */
public enum Result implements Code {
    RELEASED("Released", "After this attempt nothing of the device was held any more, whatever harm came with it."),
    PART_RELEASED(
            "Part released", "A part of the device came free or out, while another stayed held or was left behind."),
    NO_CHANGE(
            "No change",
            "Nothing came free and nothing was worse; also a device expanded, covered or left where it lay."),
    WORSENED(
            "Worsened",
            "Nothing came free, and the hold, the device, the vessel or the circulation was worse than before.");

    private final Coding coding;

    Result(String label, String definition) {
        coding = Coding.of(this, label, definition, Sources.CONVENTION);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
