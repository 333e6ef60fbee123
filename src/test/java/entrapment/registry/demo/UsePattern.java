package entrapment.registry.demo;

import java.util.Comparator;
import java.util.List;

/** One device of a class in one kind of lesion: the columns of an activity row; an empty text is unknown. */
record UsePattern(
        String deviceClass,
        String deviceSizeMm,
        String vessel,
        String calcification,
        String tortuosity,
        String totalOcclusion,
        String stentLayers,
        String guideFrench,
        String operatorStage)
        implements Comparable<UsePattern> {

    static final List<String> COLUMNS = List.of(
            "deviceClass",
            "deviceSizeMm",
            "vessel",
            "calcification",
            "tortuosity",
            "totalOcclusion",
            "stentLayers",
            "guideFrench",
            "operatorStage");

    private static final Comparator<UsePattern> BY_COLUMNS =
            Comparator.comparing(pattern -> pattern.values().toString());

    List<String> values() {
        return List.of(
                deviceClass,
                deviceSizeMm,
                vessel,
                calcification,
                tortuosity,
                totalOcclusion,
                stentLayers,
                guideFrench,
                operatorStage);
    }

    static UsePattern of(List<String> values) {
        return new UsePattern(
                values.get(0),
                values.get(1),
                values.get(2),
                values.get(3),
                values.get(4),
                values.get(5),
                values.get(6),
                values.get(7),
                values.get(8));
    }

    @Override
    public int compareTo(UsePattern other) {
        return BY_COLUMNS.compare(this, other);
    }
}
