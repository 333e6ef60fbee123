package entrapment.registry.vocabulary;

/**
 * The field {@code result}: what one attempt came to, judged before the next; leaving or covering a device frees
 * nothing.
 */
public enum Result implements Code {
    RELEASED(
            "released",
            "Released",
            "After this attempt nothing of the device was held any more, whatever harm came with it.",
            Sources.CONVENTION),
    PART_RELEASED(
            "part-released",
            "Part released",
            "A part of the device came free or out, while another stayed held or was left behind.",
            Sources.CONVENTION),
    NO_CHANGE(
            "no-change",
            "No change",
            "Nothing came free and nothing was worse; also a device expanded, covered or left where it lay.",
            Sources.CONVENTION),
    WORSENED(
            "worsened",
            "Worsened",
            "Nothing came free, and the hold, the device, the vessel or the circulation was worse than before.",
            Sources.CONVENTION);

    private final Coding coding;

    Result(String code, String label, String definition, String source) {
        coding = new Coding(code, label, definition, source);
    }

    @Override
    public Coding coding() {
        return coding;
    }
}
