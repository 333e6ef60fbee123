package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseColumn;
import entrapment.registry.cases.CaseColumns;
import entrapment.registry.cases.CaseQuery;
import entrapment.registry.cases.CaseSamples;
import entrapment.registry.cases.PartialCase;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Field;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.poi.xslf.usermodel.XMLSlideShow;
import org.apache.poi.xslf.usermodel.XSLFShape;
import org.apache.poi.xslf.usermodel.XSLFTable;
import org.apache.poi.xslf.usermodel.XSLFTextShape;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import tools.jackson.databind.node.ObjectNode;

/** A field has one name for people, wherever it is shown. */
@RegistryTest
class FieldLabelTests {

    private static final Set<Field> OF_ATTEMPT =
            EnumSet.of(Field.TECHNIQUE, Field.RESULT, Field.MINUTES_FROM_ENTRAPMENT, Field.ENABLERS);

    /** The network of the tests keeps no device identifiers. */
    private static final Set<Field> KEPT = EnumSet.complementOf(EnumSet.of(Field.DEVICE_IDENTIFIER));

    /** What a slide says of a case above the table of its attempts, and the CSV, which has the table's rows, does not. */
    private static final Set<Field> ABOVE_THE_TABLE = EnumSet.of(
            Field.MECHANISM, Field.PHASE, Field.HAEMODYNAMICS, Field.SHOCK_STAGE, Field.TIMI_FLOW, Field.FRACTURED);

    /** What else a slide says of a case. */
    private static final Set<Field> ON_SLIDES = EnumSet.of(
            Field.VESSEL,
            Field.POSITION,
            Field.CALCIFICATION,
            Field.TORTUOSITY,
            Field.ANGULATION,
            Field.TOTAL_OCCLUSION,
            Field.STENT_LAYERS,
            Field.RELEASE,
            Field.FRAGMENT,
            Field.DISSECTION,
            Field.PERFORATION,
            Field.FINAL_TIMI_FLOW,
            Field.HARM,
            Field.PROCEDURE_END,
            Field.COMPLICATIONS);

    @Autowired
    private TestNetwork network;

    private TestCentre centre;
    private PageClient pages;

    @BeforeEach
    void aCaseInWhichEveryFieldIsKnownWithAChangedAttempt() {
        centre = network.centre();
        String path = centre.cases() + "/label-case";
        CaseSamples full = CaseSamples.aCase()
                .with("/procedureKey", "label-procedure")
                .with("/lesion/segment", "2")
                .with("/outcome/miDefinition", "scai")
                .change(tree -> tree.withObject("/outcome")
                        .putArray("complications")
                        .add("periprocedural-mi")
                        .add("stroke"));
        assertThat(centre.submitter().put(path, full.json()).status()).isEqualTo(201);
        CaseSamples changed = full.change(tree -> ((ObjectNode) tree.at("/attempts/0"))
                .put("technique", "snare")
                .put("result", "worsened")
                .put("minutesFromEntrapment", 4)
                .putArray("enablers")
                .add("guide-upsized"));
        assertThat(centre.submitter()
                        .put(path, changed.json(), "If-Match", "\"1\"")
                        .status())
                .isEqualTo(200);
        pages = centre.submitter().atPages();
    }

    @Test
    void onTheForm() {
        String page = pages.get("/report-a-case").body();
        Map<String, String> labels = named("<label for=\"(\\w+)\"><span>([^<]*)</span>", page);
        labels.putAll(named("<fieldset id=\"(\\w+)-all\"[^>]*>\\s*<legend>([^<]*)</legend>", page));

        for (Field field : KEPT) {
            CaseColumn<?> column = CaseColumns.of(field, OF_ATTEMPT.contains(field) ? 1 : 0);
            assertThat(labels).containsEntry(column.name(), field.label());
        }
    }

    @Test
    void onTheList() {
        String page = pages.get("/cases").body();
        Map<String, String> filters = named("<label for=\"filter-(\\w+)\">([^<]*)</label>", page);

        for (Field field : CaseQuery.filterFields()) {
            if (KEPT.contains(field)) {
                assertThat(filters).containsEntry(field.code(), field.label());
            }
        }
        assertThat(texts("<th scope=\"col\"[^>]*>([^<]*)</th>", page))
                .contains(labels(EnumSet.of(
                        Field.CASE_KEY, Field.PERIOD, Field.DEVICE_CLASS, Field.VESSEL, Field.RELEASE, Field.HARM)));
    }

    @Test
    void onThePageOfACaseAndInItsHistory() {
        String page = pages.get("/cases/" + centre.code() + "/label-case").body();
        EnumSet<Field> outside = EnumSet.copyOf(KEPT);
        outside.removeAll(OF_ATTEMPT);

        assertThat(texts("<dt>([^<]*)</dt>", page)).containsExactlyInAnyOrder(labels(outside));
        assertThat(texts("<th scope=\"row\">Attempt 1, ([^<]*)</th>", page))
                .containsExactlyInAnyOrder(labels(OF_ATTEMPT));
    }

    @Test
    void inTheVocabulary() {
        Map<String, String> headings = named(
                "<h2 id=\"(\\w+)\"><span>([^<]*)</span>",
                pages.get("/methods/vocabulary").body());

        assertThat(headings).isEqualTo(Field.coded().stream().collect(Collectors.toMap(Field::code, Field::label)));
    }

    @Test
    void onTheFormOfAQuestion() {
        Set<String> texts =
                texts(">([^<>]+)<", pages.get("/questions/similar-cases").body());

        assertThat(texts)
                .contains(Stream.concat(
                                Stream.of(Factor.values())
                                        .filter(factor -> factor != Factor.DEVICE_SIZE_MM)
                                        .map(Factor::field),
                                PartialCase.LEAVES.stream().flatMap(leaf -> Field.of(leaf).stream()))
                        .map(Field::label)
                        .toArray(String[]::new))
                .contains(Field.DEVICE_SIZE_MM.label() + ", mm");
    }

    @Test
    void inTheSlidesOfAMeetingAndTheirCsv(@TempDir Path folder) throws IOException {
        String meeting = centre.analyst().post("/api/meetings", """
                        {"kind": "teaching", "from": "2026-Q2", "to": "2026-Q2",
                         "cases": {"rule": "random-sample", "size": 1}}""").header("Location");
        centre.analyst().post(meeting + "/freeze", "");
        String csv = centre.analyst().get(meeting + "/slides?format=csv").body();
        Path file = folder.resolve("deck.pptx");
        centre.analyst().download(meeting + "/slides", file);

        String deck = String.join("\n", slides(file));
        assertThat(Stream.of(ON_SLIDES, ABOVE_THE_TABLE).flatMap(Set::stream))
                .allSatisfy(field -> assertThat(deck).containsPattern(told(field)));
        assertThat(Stream.of(ON_SLIDES, OF_ATTEMPT).flatMap(Set::stream))
                .allSatisfy(field -> assertThat(csv).containsPattern(told(field)));
        assertThat(slides(file)).contains(labels(OF_ATTEMPT));
    }

    private static Pattern told(Field field) {
        return Pattern.compile("(^|[ ,\"])" + Pattern.quote(field.label()) + ": ", Pattern.MULTILINE);
    }

    private static Set<String> slides(Path file) throws IOException {
        Set<String> texts = new HashSet<>();
        try (XMLSlideShow deck = new XMLSlideShow(Files.newInputStream(file))) {
            deck.getSlides().forEach(slide -> slide.getShapes().forEach(shape -> read(shape, texts)));
        }
        return texts;
    }

    private static void read(XSLFShape shape, Set<String> texts) {
        if (shape instanceof XSLFTextShape text) {
            texts.add(text.getText());
        } else if (shape instanceof XSLFTable table) {
            table.getRows().forEach(row -> row.getCells().forEach(cell -> texts.add(cell.getText())));
        }
    }

    private static String[] labels(Set<Field> fields) {
        return fields.stream().map(Field::label).toArray(String[]::new);
    }

    private static Map<String, String> named(String pattern, String page) {
        Map<String, String> named = new HashMap<>();
        Matcher matcher = Pattern.compile(pattern).matcher(page);
        while (matcher.find()) {
            named.put(matcher.group(1), plain(matcher.group(2)));
        }
        return named;
    }

    private static Set<String> texts(String pattern, String page) {
        return Pattern.compile(pattern)
                .matcher(page)
                .results()
                .map(found -> plain(found.group(1)))
                .collect(Collectors.toSet());
    }

    private static String plain(String html) {
        return html.replace("&#39;", "'").strip();
    }
}
