package entrapment.registry.cases;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Optional;
import java.util.stream.Stream;

/** What the success of retrieval may be split by. */
public enum RetrievalSplit {
    DEVICE_CLASS("deviceClass", "device_class"),
    HAEMODYNAMICS("haemodynamics", "haemodynamics"),
    TIMI_FLOW("timiFlow", "timi_flow"),
    GUIDE_FRENCH("guideFrench", "guide_french");

    private final String code;
    private final String column;

    RetrievalSplit(String code, String column) {
        this.code = code;
        this.column = column;
    }

    @JsonValue
    public String code() {
        return code;
    }

    String column() {
        return column;
    }

    /** The split of this name. */
    public static Optional<RetrievalSplit> of(String code) {
        return Stream.of(values()).filter(split -> split.code.equals(code)).findFirst();
    }
}
