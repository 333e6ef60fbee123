package entrapment.registry.vocabulary;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** What people read in the place of codes and of the names of fields. */
public final class Labels {

    private static final Map<String, String> FIELDS = Map.ofEntries(
            Map.entry("deviceClass", "Device"),
            Map.entry("deviceSizeMm", "Device size"),
            Map.entry("vessel", "Vessel"),
            Map.entry("position", "Position in the vessel"),
            Map.entry("segment", "Segment"),
            Map.entry("calcification", "Calcification"),
            Map.entry("tortuosity", "Tortuosity"),
            Map.entry("angulation", "Angulation"),
            Map.entry("totalOcclusion", "Chronic total occlusion"),
            Map.entry("stentLayers", "Stent layers in the lesion"),
            Map.entry("guideFrench", "Guide catheter"),
            Map.entry("access", "AccessSite"),
            Map.entry("operatorStage", "Operator's stage"),
            Map.entry("ageBand", "Age"),
            Map.entry("sex", "Sex"),
            Map.entry("presentation", "Presentation"),
            Map.entry("urgency", "Urgency"),
            Map.entry("mechanism", "Mechanism"),
            Map.entry("phase", "Phase"),
            Map.entry("haemodynamics", "Haemodynamics"),
            Map.entry("shockStage", "Shock stage"),
            Map.entry("timiFlow", "TIMI flow"),
            Map.entry("finalTimiFlow", "TIMI flow at the end"),
            Map.entry("fractured", "Device parted"),
            Map.entry("technique", "Technique"),
            Map.entry("fragment", "Fragment"),
            Map.entry("dissection", "Dissection"),
            Map.entry("perforation", "Perforation"),
            Map.entry("procedureEnd", "End of the procedure"),
            Map.entry("miDefinition", "Definition of infarction"),
            Map.entry("minutesFromEntrapment", "Minutes to each attempt"),
            Map.entry("perforation-iii", "Perforation type III"),
            Map.entry("fragment-left", "Fragment left in the body"),
            Map.entry("not-released", "Nothing released"),
            Map.entry("centre", "Centre"),
            Map.entry("from", "From"),
            Map.entry("to", "To"),
            Map.entry("period", "Period"),
            Map.entry("year", "Year"));

    private static final Map<String, Map<String, String>> CODES = Vocabulary.fields().entrySet().stream()
            .collect(Collectors.toUnmodifiableMap(Map.Entry::getKey, field -> field.getValue().stream()
                    .collect(Collectors.toUnmodifiableMap(Code::code, Code::label))));

    private Labels() {}

    /** A field, what a report is split by, or an outcome that it names, from its name in JSON. */
    public static String field(String name) {
        return FIELDS.getOrDefault(name, name);
    }

    /** A level of a field from its code; what has no label stands as it is. */
    public static String level(String field, String level) {
        if (field.equals(Factor.DEVICE_SIZE_MM.code()) && !level.equals(Factor.UNKNOWN)) {
            return level + " mm";
        }
        if (field.equals("centre")) {
            return level.replace('-', ' ');
        }
        return CODES.getOrDefault(field, Map.of()).getOrDefault(level, level);
    }

    /** Filters in one line: {@code Device: Balloon catheter, Guidewire; From: 2031-Q1}. */
    public static String filters(Map<String, ?> filters) {
        return filters.entrySet().stream()
                .map(filter -> field(filter.getKey()) + ": "
                        + (filter.getValue() instanceof Collection<?> values ? values : List.of(filter.getValue()))
                                .stream()
                                        .map(value -> level(filter.getKey(), String.valueOf(value)))
                                        .collect(Collectors.joining(", ")))
                .collect(Collectors.joining("; "));
    }

    /** The levels that make a group, in one line; {@code all} where the group is all there is. */
    public static String group(Map<String, ?> levels, String all) {
        List<String> words = levels.entrySet().stream()
                .map(level -> level(level.getKey(), String.valueOf(level.getValue())))
                .toList();
        return words.isEmpty() ? all : String.join(", ", words);
    }
}
