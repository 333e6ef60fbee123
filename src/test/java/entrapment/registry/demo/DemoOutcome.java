package entrapment.registry.demo;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tools.jackson.databind.node.ObjectNode;

/** How the vessel and the patient did after a rescue. */
final class DemoOutcome {

    /** In the order of the code list. */
    private static final List<String> COMPLICATIONS = List.of(
            "periprocedural-mi",
            "tamponade",
            "distal-wire-perforation",
            "stent-avulsed",
            "abrupt-closure",
            "emergency-surgery",
            "stroke",
            "major-bleeding",
            "in-hospital-death");

    private static final List<String> HARM = List.of("none", "mild", "moderate", "severe", "death");

    private DemoOutcome() {}

    static void write(
            ObjectNode outcome,
            DemoRandom random,
            DemoRescue rescue,
            UsePattern pattern,
            String haemodynamics,
            String timiFlow) {
        String perforation = random.pick("none 920 I 25 II 25 III 27 III-cavity 3");
        Set<String> complications = new TreeSet<>();
        vesselComplications(complications, random, rescue, pattern, perforation, timiFlow);
        patientComplications(complications, random, haemodynamics);
        boolean out = rescue.release().equals("intact") || rescue.release().equals("damaged");
        boolean death = complications.contains("in-hospital-death");
        boolean smooth = out && !complications.contains("emergency-surgery") && !death;
        outcome.put("release", rescue.release())
                .put("fragment", rescue.fragment())
                .put("dissection", random.pick("none 78 A 5 B 8 C 5 D 2 E 1 unknown 1"))
                .put("perforation", perforation)
                .put("finalTimiFlow", random.pick(smooth ? "3 90 2 8 1 1 0 1" : "3 62 2 18 1 8 0 12"));
        COMPLICATIONS.stream().filter(complications::contains).forEach(outcome.putArray("complications")::add);
        if (complications.contains("periprocedural-mi")) {
            outcome.put("miDefinition", random.pick("udmi-4a 60 scai 15 arc-2 15 unknown 10"));
        }
        outcome.put("harm", harm(random, complications, rescue, haemodynamics, perforation))
                .put(
                        "procedureEnd",
                        random.pick(
                                smooth
                                        ? "completed-as-planned 74 completed-otherwise 17 abandoned 8 unknown 1"
                                        : "completed-otherwise 60 abandoned 40"));
    }

    private static void vesselComplications(
            Set<String> complications,
            DemoRandom random,
            DemoRescue rescue,
            UsePattern pattern,
            String perforation,
            String timiFlow) {
        if (rescue.has("surgery")) {
            complications.add("emergency-surgery");
        }
        if (perforation.equals("III") && random.chance(0.6)) {
            complications.add("tamponade");
        }
        if (perforation.equals("none") && random.chance(0.015)) {
            complications.add("distal-wire-perforation");
        }
        boolean stented =
                pattern.stentLayers().equals("1") || pattern.stentLayers().equals("2-or-more");
        if (stented && random.chance(0.15)) {
            complications.add("stent-avulsed");
        }
        if (timiFlow.equals("0") && random.chance(0.5)) {
            complications.add("abrupt-closure");
        }
        if (random.chance(timiFlow.equals("0") || timiFlow.equals("1") ? 0.25 : 0.06)) {
            complications.add("periprocedural-mi");
        }
    }

    private static void patientComplications(Set<String> complications, DemoRandom random, String haemodynamics) {
        boolean surgery = complications.contains("emergency-surgery");
        if (random.chance(0.008)) {
            complications.add("stroke");
        }
        if (random.chance(surgery ? 0.3 : 0.02)) {
            complications.add("major-bleeding");
        }
        double death = 0.004
                + (surgery ? 0.12 : 0)
                + (complications.contains("tamponade") ? 0.1 : 0)
                + (haemodynamics.equals("unstable") ? 0.05 : 0)
                + (haemodynamics.equals("arrest") ? 0.35 : 0);
        if (random.chance(death)) {
            complications.add("in-hospital-death");
        }
    }

    /** The WHO degree: what a complication costs at least, and some mild harm where there was none. */
    private static String harm(
            DemoRandom random, Set<String> complications, DemoRescue rescue, String haemodynamics, String perforation) {
        int degree = rescue.release().equals("partial") || !haemodynamics.equals("stable") ? 1 : 0;
        degree = Math.max(degree, random.chance(0.42) ? 1 : 0);
        if (perforation.startsWith("III") || haemodynamics.equals("arrest")) {
            degree = 2;
        }
        for (String complication : complications) {
            int least =
                    switch (complication) {
                        case "in-hospital-death" -> 4;
                        case "emergency-surgery" -> 3;
                        case "tamponade", "stroke" -> random.chance(0.6) ? 3 : 2;
                        case "distal-wire-perforation" -> 1;
                        default -> 2;
                    };
            degree = Math.max(degree, least);
        }
        return HARM.get(degree);
    }
}
