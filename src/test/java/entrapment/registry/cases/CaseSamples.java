package entrapment.registry.cases;

import entrapment.registry.intake.Settings;
import entrapment.registry.vocabulary.Period;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.function.Consumer;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Cases for tests, as JSON: an unremarkable one, of which a test changes only what it is about. */
public final class CaseSamples {

    private static final String UNREMARKABLE = """
            {
              "period": "2026-Q2",
              "patient": {"ageBand": "70-74", "sex": "female"},
              "procedure": {"presentation": "chronic-coronary", "urgency": "elective", "access": "radial",
                            "guideFrench": "7", "operatorStage": "established"},
              "lesion": {"vessel": "rca", "position": "mid", "calcification": "severe", "tortuosity": "moderate",
                         "angulation": "45-to-90", "totalOcclusion": "no", "stentLayers": "0"},
              "device": {"deviceClass": "rotational-burr", "deviceSizeMm": 1.25},
              "event": {"mechanism": "passed-beyond-lesion", "phase": "final-pass", "haemodynamics": "stable",
                        "shockStage": "A", "timiFlow": "2", "fractured": "no"},
              "attempts": [
                {"technique": "steady-traction", "result": "no-change", "minutesFromEntrapment": 3},
                {"technique": "parallel-balloon", "enablers": ["shaft-cut", "sheath-removed"], "result": "released",
                 "minutesFromEntrapment": 21}
              ],
              "outcome": {"release": "intact", "fragment": "none", "dissection": "none", "perforation": "none",
                          "finalTimiFlow": "3", "complications": [], "harm": "mild",
                          "procedureEnd": "completed-as-planned"}
            }""";

    private final ObjectNode tree = (ObjectNode) JsonMapper.shared().readTree(UNREMARKABLE);

    private CaseSamples() {}

    /** A burr freed on the second attempt, without a query. */
    public static CaseSamples aCase() {
        return new CaseSamples();
    }

    public CaseSamples with(String pointer, String value) {
        return at(pointer, (place, name) -> place.put(name, value));
    }

    public CaseSamples with(String pointer, double value) {
        return at(pointer, (place, name) -> place.put(name, value));
    }

    public CaseSamples without(String pointer) {
        return at(pointer, (place, name) -> place.remove(name));
    }

    /** As it is read, under a key. */
    public KeyedCase keyed(String caseKey) {
        return new CaseIntake(
                        Clock.fixed(Instant.parse("2026-08-15T00:00:00Z"), ZoneOffset.UTC),
                        new Settings(Period.Resolution.QUARTER, true, 5))
                .read(tree, caseKey)
                .orRefuse();
    }

    /** Changes the tree in any other way. */
    public CaseSamples change(Consumer<ObjectNode> change) {
        change.accept(tree);
        return this;
    }

    /** Replaces the attempts: technique and result in turn. The release follows from the last result. */
    public CaseSamples tried(String... techniquesAndResults) {
        ArrayNode attempts = tree.putArray("attempts");
        for (int index = 0; index < techniquesAndResults.length; index += 2) {
            attempts.addObject()
                    .put("technique", techniquesAndResults[index])
                    .put("result", techniquesAndResults[index + 1]);
        }
        boolean released = techniquesAndResults[techniquesAndResults.length - 1].equals("released");
        return with("/outcome/release", released ? "intact" : "none");
    }

    public ObjectNode tree() {
        return tree;
    }

    public String json() {
        return tree.toString();
    }

    /** One line of NDJSON. */
    public String line(String caseKey) {
        return tree.deepCopy().put("caseKey", caseKey) + "\n";
    }

    private interface Change {
        void make(ObjectNode place, String name);
    }

    private CaseSamples at(String pointer, Change change) {
        int last = pointer.lastIndexOf('/');
        ObjectNode place = last == 0 ? tree : tree.withObject(pointer.substring(0, last));
        change.make(place, pointer.substring(last + 1));
        return this;
    }
}
