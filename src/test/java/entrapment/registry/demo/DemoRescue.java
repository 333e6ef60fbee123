package entrapment.registry.demo;

import java.util.ArrayList;
import java.util.List;

/** What was tried to free a device, in order, and what became of the device. */
record DemoRescue(List<Attempt> attempts, boolean fractured, String release, String fragment) {

    record Attempt(String technique, List<String> enablers, String result, int minutesFromEntrapment) {}

    /** The state of the patient and the device that decides what is tried. */
    record Situation(UsePattern pattern, String haemodynamics, boolean fractured) {}

    private static final int MOST_TRIES = 5;

    boolean has(String technique) {
        return attempts.stream().anyMatch(attempt -> attempt.technique().equals(technique));
    }

    /**
     * The techniques of a class in their usual order, each with the per cent chance that it is tried when its turn comes.
     * Orders follow published algorithms where there are any, else common practice, no single source.
     */
    private static String plan(String deviceClass) {
        return switch (deviceClass) {
            case "guidewire" ->
                "steady-traction 70 microcatheter-capture 60 traction-guide-extension 45 parallel-balloon 40"
                        + " trapping-balloon 40 snare 45 forceps-or-basket 15";
            case "stent" ->
                "balloon-through-stent 75 snare 60 wire-entwining 35 traction-guide-extension 25"
                        + " forceps-or-basket 30";
            case "rotational-burr" ->
                "steady-traction 75 vasodilator 25 device-rotation 30 parallel-balloon 60 second-guide 30"
                        + " traction-guide-extension 65 parallel-knuckle-balloon 30 snare 30";
            case "orbital-crown" ->
                "steady-traction 75 device-rotation 40 parallel-balloon 60 traction-guide-extension 60 snare 30";
            case "microcatheter" ->
                "steady-traction 65 device-rotation 50 traction-guide-extension 45 parallel-balloon 45"
                        + " trapping-balloon 50 snare 35";
            case "imaging-catheter" ->
                "steady-traction 70 lumen-wire 55 traction-guide-extension 55 second-guide 45 parallel-balloon 30";
            case "guide-extension" ->
                "steady-traction 75 traction-guide-deep-seated 50 parallel-balloon 60 trapping-balloon 40 snare 35";
            case "filter" -> "steady-traction 60 traction-guide-extension 80 snare 60";
            default ->
                "steady-traction 70 traction-guide-deep-seated 40 traction-guide-extension 65 parallel-balloon 60"
                        + " second-guide 20 snare 35";
        };
    }

    /** What is done in the end if nothing released the device. */
    private static String end(String deviceClass) {
        return switch (deviceClass) {
            case "guidewire", "microcatheter" -> "left-in-place 35 stent-over-fragment 35 surgery 30";
            case "stent" -> "deploy-in-place 50 stent-over-fragment 25 surgery 25";
            case "balloon", "scoring-balloon" -> "left-in-place 10 stent-over-fragment 20 surgery 70";
            default -> "surgery 1";
        };
    }

    static DemoRescue of(DemoRandom random, Situation situation) {
        return new Course(random, situation).run();
    }

    /** One rescue under way. */
    private static final class Course {

        private final DemoRandom random;
        private final Situation situation;
        private final List<Attempt> attempts = new ArrayList<>();
        private int minutes;
        private boolean fractured;

        Course(DemoRandom random, Situation situation) {
            this.random = random;
            this.situation = situation;
            this.fractured = situation.fractured();
        }

        DemoRescue run() {
            String result = tryInOrder();
            if (result.equals("released")) {
                return released(0.08);
            }
            if (result.equals("part-released")) {
                return partlyReleased();
            }
            return unreleased(random.pick(end(situation.pattern().deviceClass())));
        }

        /** The last result. Nobody gives up, or operates, before something was tried: in a stable patient four things. */
        private String tryInOrder() {
            List<String> plan = List.of(plan(situation.pattern().deviceClass()).split(" ", -1));
            int least = stable() ? 4 : 1;
            String result = "no-change";
            for (int pass = 0; pass < 2; pass++) {
                for (int i = 0; i < plan.size(); i += 2) {
                    boolean due = pass == 0
                            ? attempts.size() < MOST_TRIES && chosen(plan.get(i), Integer.parseInt(plan.get(i + 1)))
                            : attempts.size() < least && !tried(plan.get(i));
                    if (due) {
                        result = attempt(plan.get(i));
                    }
                    if (result.endsWith("released")) {
                        return result;
                    }
                }
            }
            return result;
        }

        private boolean chosen(String technique, int perCent) {
            boolean slow = technique.equals("vasodilator") || technique.equals("device-rotation");
            boolean late = attempts.size() >= 2 && situation.haemodynamics().equals("arrest");
            return random.chance(perCent / 100.0) && !(slow && !stable()) && !late;
        }

        private boolean tried(String technique) {
            return attempts.stream().anyMatch(attempt -> attempt.technique().equals(technique));
        }

        private boolean stable() {
            return situation.haemodynamics().equals("stable");
        }

        private String attempt(String technique) {
            if (random.chance(DemoTruth.release(technique, attempts.size()))) {
                return add(technique, "released");
            }
            // A part comes out in place of a failure, so that the planted probability of a release holds as written.
            return add(
                    technique,
                    fractured && random.chance(0.3) ? "part-released" : random.pick("no-change 93 worsened 7"));
        }

        private DemoRescue released(double damage) {
            boolean damaged = fractured || random.chance(damage);
            boolean unsure = fractured && situation.pattern().deviceClass().equals("guidewire") && random.chance(0.2);
            return rescue(damaged ? "damaged" : "intact", unsure ? "unknown" : "none");
        }

        private DemoRescue partlyReleased() {
            String rest = random.pick("stent-over-fragment 35 left-in-place 35 - 30");
            if (!rest.equals("-")) {
                add(rest, "no-change");
            }
            return rescue("partial", fragment(rest));
        }

        private DemoRescue unreleased(String last) {
            boolean stent = situation.pattern().deviceClass().equals("stent");
            if (last.equals("surgery")) {
                boolean removed = random.chance(DemoTruth.release(last, attempts.size()));
                add(last, removed ? "released" : "no-change");
                return removed ? released(0.3) : rescue("none", "in-vessel");
            }
            if (stent) {
                add(last, "no-change");
                return rescue("none", last.equals("deploy-in-place") ? "none" : fragment(last));
            }
            // The shaft or wire is broken apart, its outer end withdrawn, and the rest stays.
            fractured = true;
            add(last, "part-released");
            return rescue("partial", fragment(last));
        }

        private String fragment(String last) {
            return last.equals("stent-over-fragment")
                    ? "stented-over"
                    : random.pick("in-vessel 80 in-aorta 8 embolised 12");
        }

        private DemoRescue rescue(String release, String fragment) {
            return new DemoRescue(List.copyOf(attempts), fractured, release, fragment);
        }

        private String add(String technique, String result) {
            minutes += technique.equals("surgery")
                    ? random.between(40, 95)
                    : random.between(2, attempts.isEmpty() ? 7 : 14);
            attempts.add(new Attempt(technique, enablers(technique), result, minutes));
            return result;
        }

        private List<String> enablers(String technique) {
            UsePattern pattern = situation.pattern();
            boolean burr = pattern.deviceClass().equals("rotational-burr");
            boolean narrow = !pattern.guideFrench().equals("8");
            List<String> enablers = new ArrayList<>();
            boolean besideShaft = technique.equals("parallel-balloon") && narrow;
            if (burr && (besideShaft || technique.equals("traction-guide-extension")) && random.chance(0.93)) {
                enablers.add("shaft-cut");
                enablers.add("sheath-removed");
            }
            if (technique.equals("lumen-wire") || (burr && technique.equals("snare"))) {
                enablers.add("shaft-cut");
            }
            if (technique.equals("trapping-balloon") && random.chance(0.1)) {
                enablers.add("guide-upsized");
            }
            if (technique.equals("second-guide")) {
                enablers.add("second-access");
            }
            if (!stable() && random.chance(0.3)) {
                enablers.add("mechanical-support");
            }
            return enablers;
        }
    }
}
