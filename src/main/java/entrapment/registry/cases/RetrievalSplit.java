package entrapment.registry.cases;

import com.fasterxml.jackson.annotation.JsonValue;
import entrapment.registry.vocabulary.Field;

/** What the success of retrieval may be split by. */
public enum RetrievalSplit {
    DEVICE_CLASS(Field.DEVICE_CLASS),
    HAEMODYNAMICS(Field.HAEMODYNAMICS),
    TIMI_FLOW(Field.TIMI_FLOW),
    GUIDE_FRENCH(Field.GUIDE_FRENCH);

    private final Field field;

    RetrievalSplit(Field field) {
        this.field = field;
    }

    @JsonValue
    public String code() {
        return field.code();
    }

    String column() {
        return field.column();
    }
}
