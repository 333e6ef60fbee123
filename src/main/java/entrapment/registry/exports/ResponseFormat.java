package entrapment.registry.exports;

import entrapment.registry.exports.slides.Deck;
import entrapment.registry.exports.slides.PptxWriter;
import entrapment.registry.intake.Parameters;
import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;

/**
 * In which form an answer is written: {@code format} decides, without it the Accept header, and JSON where neither says.
 *
 * @param comments whether comment rows stand before a table
 * @param dark whether slides have a dark ground
 */
public record ResponseFormat(Form form, boolean comments, boolean dark) {

    /** Slides as PowerPoint and LibreOffice read them (ECMA-376). */
    public static final String PPTX = "application/vnd.openxmlformats-officedocument.presentationml.presentation";

    /** The parameters that say how an answer is written, not what it is about. */
    private static final List<String> SHAPING = List.of("format", "comments", "theme");

    /** What an answer can be. */
    @SuppressWarnings("ImmutableEnumChecker") // a media type is never changed
    public enum Form {
        JSON("json", MediaType.APPLICATION_JSON),
        CSV("csv", new MediaType("text", "csv", StandardCharsets.UTF_8)),
        PPTX("pptx", MediaType.valueOf(ResponseFormat.PPTX));

        private final String word;
        private final MediaType type;

        Form(String word, MediaType type) {
            this.word = word;
            this.type = type;
        }
    }

    /** What a request asks for, apart from how it is to be written; to be changed by whoever wants. */
    public static Map<String, List<String>> query(HttpServletRequest request) {
        Map<String, List<String>> query = all(request);
        query.keySet().removeAll(SHAPING);
        return query;
    }

    /**
     * How a request wants its answer.
     *
     * @param forms which there are of it
     */
    public static ResponseFormat of(HttpServletRequest request, Form... forms) {
        Map<String, List<String>> shaping = all(request);
        shaping.keySet().retainAll(SHAPING);
        return read(request, shaping, forms);
    }

    /** The same of a request that has no other parameters; one that has is refused. */
    public static ResponseFormat alone(HttpServletRequest request, Form... forms) {
        return read(request, all(request), forms);
    }

    private static Map<String, List<String>> all(HttpServletRequest request) {
        Map<String, List<String>> all = new LinkedHashMap<>();
        request.getParameterMap().forEach((name, values) -> all.put(name, List.of(values)));
        return all;
    }

    private static ResponseFormat read(HttpServletRequest request, Map<String, List<String>> shaping, Form... forms) {
        String accept = request.getHeader(HttpHeaders.ACCEPT);
        // The most wanted first; of those wanted alike the one that is named first here.
        List<Form> wanted = Stream.of(forms)
                .sorted((one, other) -> Double.compare(weight(accept, other.type), weight(accept, one.type)))
                .toList();
        return Parameters.read(shaping, given -> {
                    String word = given.choice(
                            "format", wanted.stream().map(form -> form.word).toArray(String[]::new));
                    return new ResponseFormat(
                            wanted.stream()
                                    .filter(form -> form.word.equals(word))
                                    .findFirst()
                                    .orElse(Form.JSON),
                            given.choice("comments", "false", "true").equals("true"),
                            wanted.contains(Form.PPTX)
                                    && given.choice("theme", "light", "dark").equals("dark"));
                })
                .orRefuse();
    }

    /** How much the caller wants a type: the highest weight of an entry that includes it; JSON where nothing is said. */
    private static double weight(@Nullable String accept, MediaType type) {
        if (accept == null) {
            return type.equals(MediaType.APPLICATION_JSON) ? 1 : 0;
        }
        return MediaType.parseMediaTypes(accept).stream()
                .filter(range -> range.includes(type))
                .mapToDouble(MediaType::getQualityValue)
                .max()
                .orElse(0);
    }

    /** The answer in this form. */
    public ResponseEntity<Object> answer(Object json, Supplier<Table> table, Supplier<Deck> deck) {
        return ResponseEntity.ok().contentType(form.type).body(body(json, table, deck));
    }

    /** The answer in this form, to be kept as a file of this name. */
    public ResponseEntity<Object> download(String name, Object json, Supplier<Table> table, Supplier<Deck> deck) {
        return ResponseEntity.ok()
                .contentType(form.type)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename(name + "." + form.word)
                                .build()
                                .toString())
                .body(body(json, table, deck));
    }

    private Object body(Object json, Supplier<Table> table, Supplier<Deck> deck) {
        return switch (form) {
            case JSON -> json;
            case CSV -> CsvWriter.write(table.get(), comments);
            case PPTX -> PptxWriter.write(deck.get());
        };
    }
}
