package entrapment.registry.cases;

/**
 * The UDI device identifier: a GTIN-14, and nothing beside it. A UDI says more, and what it says beyond the model (lot,
 * serial, dates) may lead to one patient; whatever way it is written, it is no fourteen figures, so it is refused.
 */
final class DeviceIdentifier {

    static final String RULE = "must be a GTIN-14 with a valid check digit, without lot, serial or date";

    static final String OFF = "deviceIdentifier is switched off in this network";

    private DeviceIdentifier() {}

    /** GS1 General Specifications: weights 3 and 1 in turn from the right, the check digit making a multiple of ten. */
    static boolean valid(String text) {
        if (!text.matches("[0-9]{14}")) {
            return false;
        }
        int sum = 0;
        for (int index = 0; index < 14; index++) {
            sum += (text.charAt(index) - '0') * (index % 2 == 0 ? 3 : 1);
        }
        return sum % 10 == 0;
    }
}
