package entrapment.registry.activity;

import entrapment.registry.intake.Fields;
import entrapment.registry.vocabulary.Calcification;
import entrapment.registry.vocabulary.DeviceClass;
import entrapment.registry.vocabulary.DeviceSize;
import entrapment.registry.vocabulary.GuideFrench;
import entrapment.registry.vocabulary.OperatorStage;
import entrapment.registry.vocabulary.StentLayers;
import entrapment.registry.vocabulary.Tortuosity;
import entrapment.registry.vocabulary.TotalOcclusion;
import entrapment.registry.vocabulary.Vessel;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * How often devices of one pattern were used.
 *
 * @param deviceSizeMm millimetres; null where it was not recorded
 * @param uses devices of the class introduced into one target lesion each, entrapped or not; at least 0
 */
public record UseCount(
        DeviceClass deviceClass,
        @Nullable BigDecimal deviceSizeMm,
        Vessel vessel,
        Calcification calcification,
        Tortuosity tortuosity,
        TotalOcclusion totalOcclusion,
        StentLayers stentLayers,
        GuideFrench guideFrench,
        OperatorStage operatorStage,
        long uses) {

    /** More devices than any laboratory uses in a period; also of a whole return, so that no sum of a network overflows. */
    static final long MOST_USES = 1_000_000;

    static UseCount read(Fields fields) {
        UseCount read = new UseCount(
                fields.requiredCode("deviceClass", DeviceClass.class),
                fields.decimal("deviceSizeMm", 2, DeviceSize.SMALLEST_MM, DeviceSize.LARGEST_MM),
                fields.code("vessel", Vessel.class, Vessel.UNKNOWN),
                fields.code("calcification", Calcification.class, Calcification.UNKNOWN),
                fields.code("tortuosity", Tortuosity.class, Tortuosity.UNKNOWN),
                fields.code("totalOcclusion", TotalOcclusion.class, TotalOcclusion.UNKNOWN),
                fields.code("stentLayers", StentLayers.class, StentLayers.UNKNOWN),
                fields.code("guideFrench", GuideFrench.class, GuideFrench.UNKNOWN),
                fields.code("operatorStage", OperatorStage.class, OperatorStage.UNKNOWN),
                fields.requiredWhole("uses", 0, MOST_USES));
        if (fields.sound("/deviceClass") && !DeviceSize.possible(read.deviceClass, read.deviceSizeMm)) {
            fields.refuse("deviceSizeMm", "size-for-class", DeviceSize.RULE);
        }
        return read;
    }

    /** The same pattern with other uses. */
    UseCount withUses(long other) {
        return new UseCount(
                deviceClass,
                deviceSizeMm,
                vessel,
                calcification,
                tortuosity,
                totalOcclusion,
                stentLayers,
                guideFrench,
                operatorStage,
                other);
    }
}
