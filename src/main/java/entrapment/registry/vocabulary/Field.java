package entrapment.registry.vocabulary;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A field of a case or of an activity row: its name, what people read in its place wherever it is shown, and its codes.
 * Coded fields come first, in the order in which they are shown.
 */
public enum Field {
    DEVICE_CLASS("deviceClass", "Device", DeviceClass.values()),
    VESSEL("vessel", "Vessel", Vessel.values()),
    POSITION("position", "Position in the vessel", Position.values()),
    SEGMENT("segment", "Segment", Segment.values()),
    CALCIFICATION("calcification", "Calcification", Calcification.values()),
    TORTUOSITY("tortuosity", "Tortuosity", Tortuosity.values()),
    ANGULATION("angulation", "Angulation", Angulation.values()),
    TOTAL_OCCLUSION("totalOcclusion", "Chronic total occlusion", TotalOcclusion.values()),
    STENT_LAYERS("stentLayers", "Stent layers in the lesion", StentLayers.values()),
    GUIDE_FRENCH("guideFrench", "Guide catheter", GuideFrench.values()),
    ACCESS_SITE("access", "Access site", AccessSite.values()),
    OPERATOR_STAGE("operatorStage", "Operator's stage", OperatorStage.values()),
    AGE_BAND("ageBand", "Age", AgeBand.values()),
    SEX("sex", "Sex", Sex.values()),
    PRESENTATION("presentation", "Presentation", Presentation.values()),
    URGENCY("urgency", "Urgency", Urgency.values()),
    MECHANISM("mechanism", "Mechanism", Mechanism.values()),
    PHASE("phase", "Phase", Phase.values()),
    HAEMODYNAMICS("haemodynamics", "Haemodynamics", Haemodynamics.values()),
    SHOCK_STAGE("shockStage", "SCAI shock stage", ShockStage.values()),
    TIMI_FLOW("timiFlow", "TIMI flow with the device held", TimiFlow.values()),
    FINAL_TIMI_FLOW("finalTimiFlow", "TIMI flow at the end", TimiFlow.values()),
    FRACTURED("fractured", "Broken apart", Fractured.values()),
    TECHNIQUE("technique", "Technique", Technique.values()),
    ENABLERS("enablers", "Enablers", Enabler.values()),
    RESULT("result", "Result", Result.values()),
    RELEASE("release", "Came out", Release.values()),
    FRAGMENT("fragment", "Fragment", Fragment.values()),
    DISSECTION("dissection", "Dissection", Dissection.values()),
    PERFORATION("perforation", "Perforation", Perforation.values()),
    COMPLICATIONS("complications", "Complications", Complication.values()),
    MI_DEFINITION("miDefinition", "Definition of infarction", MiDefinition.values()),
    HARM("harm", "Degree of harm", Harm.values()),
    PROCEDURE_END("procedureEnd", "End of the procedure", ProcedureEnd.values()),

    PERIOD("period", "Period"),
    CASE_KEY("caseKey", "Key of the case"),
    PROCEDURE_KEY("procedureKey", "Key of the procedure"),
    DEVICE_SIZE_MM("deviceSizeMm", "Device size"),
    DEVICE_IDENTIFIER("deviceIdentifier", "Device identifier"),
    MINUTES_FROM_ENTRAPMENT("minutesFromEntrapment", "Minutes from entrapment");

    private final String code;
    private final String label;

    @SuppressWarnings("ImmutableEnumChecker") // the list is made by List.of
    private final List<Code> codes;

    Field(String code, String label, Code... codes) {
        this.code = code;
        this.label = label;
        this.codes = List.of(codes);
    }

    /** Its name in JSON, CSV and URLs. */
    @JsonValue
    public String code() {
        return code;
    }

    /** What people read in its place. */
    public String label() {
        return label;
    }

    /** Its codes in the order in which they are shown; empty for a number, a period or a key. */
    public List<Code> codes() {
        return codes;
    }

    /** Its name in the database. */
    public String column() {
        return code.replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    }

    /** Whether it has a code for what was not recorded. */
    public boolean mayBeUnknown() {
        return codes.stream().anyMatch(each -> !each.known());
    }

    /** Its code that is spelled like this. */
    public Optional<Code> find(String spelled) {
        return codes.stream().filter(each -> each.code().equals(spelled)).findFirst();
    }

    /** The field of this name. */
    public static Optional<Field> of(String code) {
        return Stream.of(values()).filter(field -> field.code.equals(code)).findFirst();
    }

    /** The fields that have codes. */
    public static List<Field> coded() {
        return Stream.of(values()).filter(field -> !field.codes.isEmpty()).toList();
    }
}
