package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What cases and uses have in common, so that events and uses can be counted alike. Each factor is a field of both, and a
 * column of both tables.
 */
public enum Factor {
    DEVICE_CLASS(Field.DEVICE_CLASS),
    DEVICE_SIZE_MM(Field.DEVICE_SIZE_MM),
    VESSEL(Field.VESSEL),
    CALCIFICATION(Field.CALCIFICATION),
    TORTUOSITY(Field.TORTUOSITY),
    TOTAL_OCCLUSION(Field.TOTAL_OCCLUSION),
    STENT_LAYERS(Field.STENT_LAYERS),
    GUIDE_FRENCH(Field.GUIDE_FRENCH),
    OPERATOR_STAGE(Field.OPERATOR_STAGE);

    /** The level of a factor that was not recorded. */
    public static final String UNKNOWN = Code.UNKNOWN;

    private final Field field;

    Factor(Field field) {
        this.field = field;
    }

    /** The field that it is. */
    public Field field() {
        return field;
    }

    /** The factor's name in JSON, CSV and URLs. */
    @JsonValue
    public String code() {
        return field.code();
    }

    /** The factor of this name. */
    public static Optional<Factor> of(String code) {
        return Stream.of(values()).filter(factor -> factor.code().equals(code)).findFirst();
    }

    /** The level as SQL text: a code, a size without trailing zeros, or {@value #UNKNOWN}. */
    public String sqlText() {
        return this == DEVICE_SIZE_MM
                ? "coalesce(trim_scale(device_size_mm)::text, '" + UNKNOWN + "')"
                : field.column();
    }

    /** The levels in their own order; empty for sizes, which are numbers. */
    public List<String> levels() {
        return field.codes().stream().map(Code::code).toList();
    }
}
