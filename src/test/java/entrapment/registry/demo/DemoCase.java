package entrapment.registry.demo;

import entrapment.registry.demo.DemoRescue.Attempt;
import entrapment.registry.demo.DemoRescue.Situation;
import java.math.BigDecimal;
import java.util.HashSet;
import java.util.Set;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Tells the story of one entrapment around its pattern, as one line of {@code cases.ndjson}. */
final class DemoCase {

    private static final String KEY_LETTERS = "CDFGHJKMNPQRTVWX";
    private static final String KEY_DIGITS = "34679";

    private final DemoRandom random;
    private final Set<String> keys = new HashSet<>();

    DemoCase(DemoRandom random) {
        this.random = random;
    }

    /** The case as a submission, with its centre and key in front; unknown factors stay as unknown as in the return. */
    ObjectNode of(String centre, String period, UsePattern pattern) {
        String haemodynamics = random.pick("stable 86 unstable 12 arrest 2");
        boolean fractured = random.chance(fracture(pattern.deviceClass()));
        DemoRescue rescue = DemoRescue.of(random, new Situation(pattern, haemodynamics, fractured));
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("centre", centre).put("caseKey", key()).put("period", period).putNull("procedureKey");
        patientAndProcedure(json, pattern);
        lesion(json.putObject("lesion"), pattern);
        device(json.putObject("device"), pattern);
        String timiFlow = event(json.putObject("event"), pattern, haemodynamics, rescue.fractured());
        rescue.attempts().forEach(attempt -> attempt(json, attempt));
        DemoOutcome.write(json.putObject("outcome"), random, rescue, pattern, haemodynamics, timiFlow);
        return json;
    }

    /** Letters and digits by turns: no run of digits that could be a record number or a date. */
    private String key() {
        StringBuilder key = new StringBuilder("QRM-");
        for (int i = 0; i < 6; i++) {
            String symbols = i % 2 == 0 ? KEY_LETTERS : KEY_DIGITS;
            key.append(symbols.charAt(random.between(0, symbols.length() - 1)));
        }
        return keys.add(key.toString()) ? key.toString() : key();
    }

    private static double fracture(String deviceClass) {
        return switch (deviceClass) {
            case "guidewire" -> 0.35;
            case "microcatheter" -> 0.2;
            case "balloon", "scoring-balloon", "imaging-catheter" -> 0.12;
            case "stent" -> 0.02;
            default -> 0.05;
        };
    }

    private void patientAndProcedure(ObjectNode json, UsePattern pattern) {
        json.putObject("patient")
                .put(
                        "ageBand",
                        random.pick("40-44 1 45-49 2 50-54 5 55-59 8 60-64 13 65-69 16 70-74 19 75-79 17 80-84 11"
                                + " 85-89 5 90-or-over 1 unknown 2"))
                .put("sex", random.pick("female 31 male 68 unknown 1"));
        String presentation = random.pick("chronic-coronary 62 unstable-angina 13 nstemi 17 stemi 5 other 2 unknown 1");
        String urgency =
                switch (presentation) {
                    case "stemi" -> "emergency";
                    case "chronic-coronary" -> random.pick("elective 96 urgent 4");
                    default -> random.pick("elective 15 urgent 80 emergency 5");
                };
        json.putObject("procedure")
                .put("presentation", presentation)
                .put("urgency", urgency)
                .put("access", random.pick(access(pattern.guideFrench())))
                .put("guideFrench", orUnknown(pattern.guideFrench()))
                .put("operatorStage", orUnknown(pattern.operatorStage()));
    }

    private static String access(String guideFrench) {
        return switch (guideFrench) {
            case "8" -> "femoral 1";
            case "7" -> "radial 55 femoral 45";
            default -> "radial 79 femoral 20 other 1";
        };
    }

    private void lesion(ObjectNode lesion, UsePattern pattern) {
        String vessel = orUnknown(pattern.vessel());
        String position =
                switch (vessel) {
                    case "left-main" -> random.pick("ostial 30 mid 25 distal 45");
                    case "graft" -> random.pick("ostial 25 proximal 25 mid 30 distal 20");
                    default -> random.pick("ostial 6 proximal 33 mid 38 distal 15 branch 6 unknown 2");
                };
        lesion.put("vessel", vessel).put("position", position);
        String segment = segment(vessel, position);
        if (!segment.isEmpty() && random.chance(0.8)) {
            lesion.put("segment", segment);
        }
        lesion.put("calcification", orUnknown(pattern.calcification()))
                .put("tortuosity", orUnknown(pattern.tortuosity()))
                .put("angulation", random.pick("under-45 54 45-to-90 32 over-90 8 unknown 6"))
                .put("totalOcclusion", orUnknown(pattern.totalOcclusion()))
                .put("stentLayers", orUnknown(pattern.stentLayers()));
    }

    /** The segment where vessel and position leave no choice; empty elsewhere. */
    private static String segment(String vessel, String position) {
        return switch (vessel + " " + position) {
            case "rca ostial", "rca proximal" -> "1";
            case "rca mid" -> "2";
            case "rca distal" -> "3";
            case "left-main ostial", "left-main mid", "left-main distal" -> "5";
            case "lad ostial", "lad proximal" -> "6";
            case "lad mid" -> "7";
            case "lad distal" -> "8";
            case "circumflex ostial", "circumflex proximal" -> "11";
            case "circumflex distal" -> "13";
            default -> "";
        };
    }

    private static void device(ObjectNode device, UsePattern pattern) {
        device.put("deviceClass", pattern.deviceClass());
        if (pattern.deviceSizeMm().isEmpty()) {
            device.putNull("deviceSizeMm");
        } else {
            device.put("deviceSizeMm", new BigDecimal(pattern.deviceSizeMm()));
        }
        device.putNull("deviceIdentifier");
    }

    private String event(ObjectNode event, UsePattern pattern, String haemodynamics, boolean fractured) {
        boolean stable = haemodynamics.equals("stable");
        String shockStage =
                switch (haemodynamics) {
                    case "stable" -> random.pick("A 80 B 10 unknown 10");
                    case "unstable" -> random.pick("B 30 C 48 D 18 unknown 4");
                    default -> random.pick("D 25 E 75");
                };
        String timiFlow = random.pick(stable ? "3 50 2 28 1 12 0 8 unknown 2" : "3 14 2 26 1 25 0 35");
        event.put("mechanism", mechanism(pattern))
                .put("phase", random.pick(phase(pattern.deviceClass())))
                .put("haemodynamics", haemodynamics)
                .put("shockStage", shockStage)
                .put("timiFlow", timiFlow)
                .put("fractured", fractured ? "yes" : "no");
        return timiFlow;
    }

    private String mechanism(UsePattern pattern) {
        boolean stented = !pattern.stentLayers().equals("0");
        boolean calcified = !pattern.calcification().equals("none");
        String mix =
                switch (pattern.deviceClass()) {
                    case "guidewire" -> "tip-fixed-in-plaque 50 looped-or-kinked 25 jailed-behind-stent 25";
                    case "microcatheter" -> "tip-fixed-in-plaque 55 wedged-in-calcium 30 looped-or-kinked 15";
                    case "stent" -> "caught-on-stent 40 wedged-in-calcium 45 other 15";
                    case "balloon", "scoring-balloon", "lithotripsy-balloon" ->
                        "failed-deflation 35 wedged-in-calcium 40 caught-on-stent 25";
                    case "rotational-burr", "orbital-crown", "laser-catheter" ->
                        "passed-beyond-lesion 45 wedged-in-calcium 40 caught-on-stent 15";
                    case "imaging-catheter" -> "caught-on-stent 55 looped-or-kinked 30 wedged-in-calcium 15";
                    default -> "caught-on-stent 50 looped-or-kinked 30 other 20";
                };
        while (true) {
            String mechanism = random.pick(mix);
            boolean possible = !(mechanism.equals("caught-on-stent") && !stented)
                    && !(mechanism.equals("wedged-in-calcium") && !calcified);
            if (possible) {
                return mechanism;
            }
        }
    }

    private static String phase(String deviceClass) {
        return switch (deviceClass) {
            case "rotational-burr", "orbital-crown" -> "crossing 15 treating 40 final-pass 25 withdrawing 18 unknown 2";
            case "guidewire", "microcatheter", "guide-extension" -> "crossing 50 treating 15 withdrawing 33 unknown 2";
            default -> "crossing 30 treating 25 withdrawing 43 unknown 2";
        };
    }

    private static void attempt(ObjectNode json, Attempt attempt) {
        ObjectNode node = json.withArray("attempts").addObject();
        node.put("technique", attempt.technique());
        if (!attempt.enablers().isEmpty()) {
            attempt.enablers().forEach(node.putArray("enablers")::add);
        }
        node.put("result", attempt.result()).put("minutesFromEntrapment", attempt.minutesFromEntrapment());
    }

    private static String orUnknown(String value) {
        return value.isEmpty() ? "unknown" : value;
    }
}
