package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What cases and uses have in common, so that events and uses can be counted alike. Each factor is a column of that
 * name in both tables.
 */
public enum Factor {
    DEVICE_CLASS("deviceClass", "device_class"),
    DEVICE_SIZE_MM("deviceSizeMm", "device_size_mm"),
    VESSEL("vessel", "vessel"),
    CALCIFICATION("calcification", "calcification"),
    TORTUOSITY("tortuosity", "tortuosity"),
    TOTAL_OCCLUSION("totalOcclusion", "total_occlusion"),
    STENT_LAYERS("stentLayers", "stent_layers"),
    GUIDE_FRENCH("guideFrench", "guide_french"),
    OPERATOR_STAGE("operatorStage", "operator_stage");

    /** The level of a factor that was not recorded. */
    public static final String UNKNOWN = "unknown";

    private final String code;
    private final String column;

    Factor(String code, String column) {
        this.code = code;
        this.column = column;
    }

    /** The factor's name in JSON, CSV and URLs. */
    @JsonValue
    public String code() {
        return code;
    }

    /** The factor of this name. */
    public static Optional<Factor> of(String code) {
        return Stream.of(values()).filter(factor -> factor.code.equals(code)).findFirst();
    }

    /** The level as SQL text: a code, a size without trailing zeros, or {@value #UNKNOWN}. */
    public String sqlText() {
        return this == DEVICE_SIZE_MM ? "coalesce(trim_scale(device_size_mm)::text, '" + UNKNOWN + "')" : column;
    }

    /** The levels in their own order; empty for sizes, which are numbers. */
    public List<String> levels() {
        return Vocabulary.fields().getOrDefault(code, List.of()).stream()
                .map(Code::code)
                .toList();
    }
}
