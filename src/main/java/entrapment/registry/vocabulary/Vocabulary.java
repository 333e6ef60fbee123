package entrapment.registry.vocabulary;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Every coded field of a case or an activity row with its codes, both in the order in which they are shown. */
public final class Vocabulary {

    private static final Map<String, List<? extends Code>> FIELDS = Collections.unmodifiableMap(list());

    private Vocabulary() {}

    /** The codes of each field, by the field's name in JSON and CSV. Cannot be modified. */
    public static Map<String, List<? extends Code>> fields() {
        return FIELDS;
    }

    private static Map<String, List<? extends Code>> list() {
        Map<String, List<? extends Code>> fields = new LinkedHashMap<>();
        fields.put("deviceClass", List.of(DeviceClass.values()));
        fields.put("vessel", List.of(Vessel.values()));
        fields.put("position", List.of(Position.values()));
        fields.put("segment", List.of(Segment.values()));
        fields.put("calcification", List.of(Calcification.values()));
        fields.put("tortuosity", List.of(Tortuosity.values()));
        fields.put("angulation", List.of(Angulation.values()));
        fields.put("totalOcclusion", List.of(TotalOcclusion.values()));
        fields.put("stentLayers", List.of(StentLayers.values()));
        fields.put("guideFrench", List.of(GuideFrench.values()));
        fields.put("access", List.of(AccessSite.values()));
        fields.put("operatorStage", List.of(OperatorStage.values()));
        fields.put("ageBand", List.of(AgeBand.values()));
        fields.put("sex", List.of(Sex.values()));
        fields.put("presentation", List.of(Presentation.values()));
        fields.put("urgency", List.of(Urgency.values()));
        fields.put("mechanism", List.of(Mechanism.values()));
        fields.put("phase", List.of(Phase.values()));
        fields.put("haemodynamics", List.of(Haemodynamics.values()));
        fields.put("shockStage", List.of(ShockStage.values()));
        fields.put("timiFlow", List.of(TimiFlow.values()));
        fields.put("finalTimiFlow", List.of(TimiFlow.values()));
        fields.put("fractured", List.of(Fractured.values()));
        fields.put("technique", List.of(Technique.values()));
        fields.put("enablers", List.of(Enabler.values()));
        fields.put("result", List.of(Result.values()));
        fields.put("release", List.of(Release.values()));
        fields.put("fragment", List.of(Fragment.values()));
        fields.put("dissection", List.of(Dissection.values()));
        fields.put("perforation", List.of(Perforation.values()));
        fields.put("complications", List.of(Complication.values()));
        fields.put("miDefinition", List.of(MiDefinition.values()));
        fields.put("harm", List.of(Harm.values()));
        fields.put("procedureEnd", List.of(ProcedureEnd.values()));
        return fields;
    }
}
