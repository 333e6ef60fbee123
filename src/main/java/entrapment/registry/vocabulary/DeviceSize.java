package entrapment.registry.vocabulary;

import java.math.BigDecimal;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Which sizes a device class can have; common practice, no single source, and wide on purpose. */
public final class DeviceSize {

    /** The smallest size of any device, in millimetres. */
    public static final BigDecimal SMALLEST_MM = new BigDecimal("0.20");

    /** The largest size of any device, in millimetres. */
    public static final BigDecimal LARGEST_MM = new BigDecimal("6.00");

    /** The rule in words, for whoever is refused. */
    public static final String RULE = "deviceSizeMm must be possible for the class: guidewire 0.20-0.50, balloons and"
            + " stent 0.75-6.00, burr 1.00-3.00, crown 1.00-2.50, laser catheter 0.70-2.50, microcatheter, imaging"
            + " catheter and guide extension 0.40-3.00 mm";

    private static final Range BALLOON = new Range("0.75", "6.00");
    private static final Range CATHETER = new Range("0.40", "3.00");
    private static final Map<DeviceClass, Range> POSSIBLE = Map.ofEntries(
            Map.entry(DeviceClass.GUIDEWIRE, new Range("0.20", "0.50")),
            Map.entry(DeviceClass.BALLOON, BALLOON),
            Map.entry(DeviceClass.SCORING_BALLOON, BALLOON),
            Map.entry(DeviceClass.LITHOTRIPSY_BALLOON, BALLOON),
            Map.entry(DeviceClass.STENT, BALLOON),
            Map.entry(DeviceClass.ROTATIONAL_BURR, new Range("1.00", "3.00")),
            Map.entry(DeviceClass.ORBITAL_CROWN, new Range("1.00", "2.50")),
            Map.entry(DeviceClass.LASER_CATHETER, new Range("0.70", "2.50")),
            Map.entry(DeviceClass.MICROCATHETER, CATHETER),
            Map.entry(DeviceClass.GUIDE_EXTENSION, CATHETER),
            Map.entry(DeviceClass.IMAGING_CATHETER, CATHETER));

    private static final Map<GuideFrench, BigDecimal> LARGEST_BURR_MM = Map.of(
            GuideFrench.F5, new BigDecimal("1.25"),
            GuideFrench.F6, new BigDecimal("1.75"),
            GuideFrench.F7, new BigDecimal("2.00"),
            GuideFrench.F8, new BigDecimal("2.25"));

    private DeviceSize() {}

    private record Range(String least, String most) {

        boolean holds(BigDecimal size) {
            return size.compareTo(new BigDecimal(least)) >= 0 && size.compareTo(new BigDecimal(most)) <= 0;
        }
    }

    /** Whether a device of this class can have this size in millimetres; a size that is not known can be. */
    public static boolean possible(DeviceClass deviceClass, @Nullable BigDecimal size) {
        Range range = POSSIBLE.get(deviceClass);
        return size == null || range == null || range.holds(size);
    }

    /** Whether a burr of this size in millimetres usually passes this guide catheter; what is not known does. */
    public static boolean burrPasses(GuideFrench guide, @Nullable BigDecimal size) {
        BigDecimal largest = LARGEST_BURR_MM.get(guide);
        return size == null || largest == null || size.compareTo(largest) <= 0;
    }
}
