package planted.answering;

/** Asked by a module that did not declare it. */
public class Answering {

    public String answer() {
        return "";
    }
}
