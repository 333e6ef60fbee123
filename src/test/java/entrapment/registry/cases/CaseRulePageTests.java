package entrapment.registry.cases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.ApprovedFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The page that tells a hospital's integrator every error code and every rule; made here, so that it cannot lag. */
class CaseRulePageTests {

    private static final Path PAGE = Path.of("src/docs/rules.md");
    private static final Path SOURCE = Path.of("src/main/java");

    private record FieldCode(String code, String meaning) {}

    private record Chapter(String title, List<FieldCode> codes) {}

    private static final List<Chapter> CHAPTERS = List.of(
            new Chapter(
                    "Any body",
                    List.of(
                            new FieldCode("missing", "A required field is absent, `null` or an empty text."),
                            new FieldCode(
                                    "wrong-type",
                                    "The value is not of the field's JSON type: text where a number is due, a fraction"
                                            + " where a whole number is, one value where an array is. A cell of CSV that"
                                            + " is no plain decimal number counts as text."),
                            new FieldCode(
                                    "not-a-code",
                                    "The text is none of the field's codes; the detail lists them. Codes are compared"
                                            + " exactly, case included."),
                            new FieldCode(
                                    "out-of-range",
                                    "The number lies outside the bounds in the detail, which are both allowed, or has"
                                            + " more decimal places than the field keeps."),
                            new FieldCode("too-many", "The array has more entries than the detail allows."),
                            new FieldCode(
                                    "unknown-field",
                                    "The object has a property that it may not have. The pointer names the property if"
                                            + " its name is a plain camel-case word, otherwise the object around it:"
                                            + " a name may identify somebody."),
                            new FieldCode(
                                    "not-a-period",
                                    "The period is not what the network keeps: quarters, `YYYY-Qn`, or years, `YYYY`,"
                                            + " of 1990 to 2100."),
                            new FieldCode("period-in-future", "The quarter or year has not begun yet."))),
            new Chapter(
                    "Keys and names",
                    List.of(
                            new FieldCode("key-format", "An opaque key has 6 to 40 characters of `A-Z a-z 0-9 -`."),
                            new FieldCode(
                                    "key-identifying",
                                    "The key has the shape of a date, of a telephone, record or insurance number, or"
                                            + " holds six or more digits in a row or with nothing but dashes between them."),
                            new FieldCode("other-key", "The body carries a `caseKey` that is not the one in the path."),
                            new FieldCode("centre-format", "A centre's code has 3 to 32 characters of `a-z 0-9 -`."),
                            new FieldCode("text-format", "A name or label is longer than allowed, or not one line."),
                            new FieldCode(
                                    "text-identifying",
                                    "A name or label has the shape of a date, a number or an address of somebody, in the"
                                            + " figures of any script."))),
            new Chapter(
                    "Device identifier, size and uses",
                    List.of(
                            new FieldCode("too-many-uses", "The uses of one return add up to more than 1,000,000."),
                            new FieldCode(
                                    "device-identifier-off",
                                    "The network has not switched the field `deviceIdentifier` on."),
                            new FieldCode(
                                    "not-a-device-identifier",
                                    "The text is not a GTIN-14 with a valid check digit, alone: a UDI that carries a"
                                            + " lot, a serial number or a date is refused whole."),
                            new FieldCode(
                                    "size-for-class",
                                    "A device of this class cannot have this size, in a case or in a return."))),
            new Chapter(
                    "Many rows at once",
                    List.of(
                            new FieldCode("unreadable-line", "A line of NDJSON is not one well-formed JSON value."),
                            new FieldCode("row-shape", "A row of CSV has more or fewer cells than the header."),
                            new FieldCode(
                                    "unknown-column",
                                    "The header of a CSV file has a column that it may not have; the pointer"
                                            + " `/columns/0` is the first."),
                            new FieldCode("repeated-column", "The header of a CSV file has a column twice."),
                            new FieldCode("repeated-key", "An earlier row of the same body has the same `caseKey`."),
                            new FieldCode(
                                    "case-withdrawn",
                                    "The case of this key was withdrawn; a batch does not bring it back."))),
            new Chapter(
                    "The query of a URL",
                    List.of(
                            new FieldCode("unknown-parameter", "A parameter is not known here."),
                            new FieldCode("repeated", "A parameter that has one value was given several."),
                            new FieldCode("without-strata", "`stratifyBy` is given only with `model=stratified`."),
                            new FieldCode("period-order", "`to` lies before `from`."),
                            new FieldCode("revision-in-future", "`asOf` lies after the newest revision."))),
            new Chapter(
                    "Meetings",
                    List.of(
                            new FieldCode("meeting-period-order", "`to` lies before `from`, or in a period to come."),
                            new FieldCode("too-many-periods", "A meeting covers forty periods at most."),
                            new FieldCode(
                                    "case-rule-fields",
                                    "`deviceClass`, `harm` and `size` each belong to one rule, and that one needs it."),
                            new FieldCode("network-without-cases", "The network's meeting looks at no single case."),
                            new FieldCode("not-a-day", "A due day is YYYY-MM-DD."),
                            new FieldCode("measure-harm", "`harm` belongs to a measure by the report harm alone."),
                            new FieldCode(
                                    "measure-period-order",
                                    "The periods before an action must end before those after it."),
                            new FieldCode("rated-already", "A reviewer rates a case once."))),
            new Chapter(
                    "Pages",
                    List.of(
                            new FieldCode("key-taken", "A case is stored under this key already; open that one."),
                            new FieldCode(
                                    "consent-withdrawn",
                                    "The patient's consent to the case of this key was withdrawn; it stays withdrawn."))),
            new Chapter(
                    "Releases to the outside",
                    List.of(
                            new FieldCode(
                                    "not-open-outside",
                                    "The report, grouping, filter, method or level of confidence is not open to the"
                                            + " outside; `open` lists what is."),
                            new FieldCode("year-not-complete", "The calendar year has not ended yet."),
                            new FieldCode("year-released", "A later year has been released already."),
                            new FieldCode("nothing-to-release", "No use was reported in a complete year."),
                            new FieldCode(
                                    "release-not-safe",
                                    "The release would give small counts away together with earlier ones, or contradict"
                                            + " them; `inTheWay` names the groupings."))),
            new Chapter(
                    "Calculations",
                    List.of(
                            new FieldCode("more-events-than-uses", "A count is larger than the one it is part of."),
                            new FieldCode("too-few", "The array has fewer entries than the method needs."),
                            new FieldCode("wrong-length", "An array is not as long as the one it belongs to."),
                            new FieldCode(
                                    "name-repeated", "A name that must be the only one of its kind stands twice."),
                            new FieldCode("levels-by-name", "Levels must be two or more, each with its own name."),
                            new FieldCode("not-a-level", "The text is the name of none of the levels."),
                            new FieldCode(
                                    "not-a-name",
                                    "A term's name is a letter followed by up to 39 letters, digits, `.`, `_` or `-`, and"
                                            + " neither `events` nor `of`."),
                            new FieldCode("no-uses", "There are no uses at all, or none at the reference level."),
                            new FieldCode(
                                    "aliased",
                                    "A column of the model is a linear combination of those before it; the pointer names"
                                            + " its term or level."),
                            new FieldCode("no-weight", "The standard population has no weight above 0."),
                            new FieldCode("one-of", "Of two properties exactly one must be given."),
                            new FieldCode("equal-proportions", "`p2` must differ from `p1`."),
                            new FieldCode("not-hidden", "A cell that is named as a hidden one is printed."),
                            new FieldCode(
                                    "impossible-counts",
                                    "The counts contradict each other, or are larger than the method takes."))));

    @Test
    void thePageHoldsEveryCodeAndRule() {
        ApprovedFile.assertHolds(PAGE, page());
    }

    @Test
    void everyErrorCodeOfTheSourceStandsOnThePageAndNoOther() throws IOException {
        Set<String> used = new TreeSet<>();
        try (Stream<Path> files = Files.walk(SOURCE)) {
            for (Path file :
                    files.filter(path -> path.toString().endsWith(".java")).toList()) {
                used.addAll(codes(Files.readString(file)));
            }
        }

        List<String> listed = CHAPTERS.stream()
                .flatMap(chapter -> chapter.codes().stream())
                .map(FieldCode::code)
                .toList();
        assertThat(listed).doesNotHaveDuplicates().containsExactlyInAnyOrderElementsOf(used);
    }

    @Test
    void findsTheCodesInEveryShapeOfCall() {
        assertThat(codes("""
                fields.refuse(name, "one", name + " is required, (see, \\"not-this\\")");
                fields.refuse(
                        name,
                        node.isNumber() ? "two-a" : "two-b",
                        "three");
                refuseAt("/device/" + x(1, 2), "four-and-more", "detail");
                batch.refuse(line, List.of(new FieldError("/caseKey", "five", "an earlier row")));
                errors.add(new FieldError(at(name, ','), code, detail));
                throw Problem.refused(List.of(other("six", "seven")));
                """)).containsExactlyInAnyOrder("one", "two-a", "two-b", "four-and-more", "five");
    }

    private static final Pattern CALL = Pattern.compile("(?:\\brefuse(?:At)?|new FieldError)\\(");
    private static final Pattern CODE = Pattern.compile("\"([a-z]+(?:-[a-z]+)*)\"");

    /** The texts in the shape of a code that stand in the second argument of a call that makes a field error. */
    private static Set<String> codes(String source) {
        Set<String> codes = new TreeSet<>();
        Matcher call = CALL.matcher(source);
        while (call.find()) {
            Matcher code = CODE.matcher(secondArgument(source, call.end()));
            while (code.find()) {
                codes.add(code.group(1));
            }
        }
        return codes;
    }

    private static String secondArgument(String source, int start) {
        List<Integer> ends = new ArrayList<>();
        int depth = 0;
        char quote = 0;
        for (int index = start; depth >= 0 && index < source.length(); index++) {
            char character = source.charAt(index);
            if (quote != 0) {
                index += character == '\\' ? 1 : 0;
                quote = character == quote ? 0 : quote;
            } else if (character == '"' || character == '\'') {
                quote = character;
            } else {
                depth += character == '(' ? 1 : character == ')' ? -1 : 0;
                if (depth < 0 || (depth == 0 && character == ',')) {
                    ends.add(index);
                }
            }
        }
        return ends.size() < 2 ? "" : source.substring(ends.get(0), ends.get(1));
    }

    private static String page() {
        StringBuilder page = new StringBuilder("""
                # Error codes and rules

                <!-- Made by CaseRulePageTests from the service's own rules; mvn test -Dtest=CaseRulePageTests -DupdateExpected=true -->

                A submission that is read but refused answers `422` with every error at once. Each has a `pointer` (RFC 6901)
                into what was sent, a `code` that stays the same for ever, and a `detail` that names the field and the rule.
                No answer repeats a value: it may identify somebody.

                """);
        for (Chapter chapter : CHAPTERS) {
            page.append("## ").append(chapter.title()).append("\n\n| code | meaning |\n| --- | --- |\n");
            chapter.codes()
                    .forEach(each -> page.append("| `%s` | %s |\n".formatted(each.code(), cell(each.meaning()))));
            page.append("\n");
        }
        page.append("""
                ## Rules that refuse a case

                A case that breaks one of these is not stored. A rule is passed over while a field that it looks at cannot be
                read. The rules are about coding a case, not about treating a patient.

                """).append(rules(CaseRule.Kind.REFUSED));
        page.append("""

                ## Rules that ask again

                A case that breaks one of these is stored, since it may be right as it is, and the answer's `queries` ask its
                sender to look again.

                """).append(rules(CaseRule.Kind.QUERIED));
        page.append("""

                ## Signs that a case may concern rules on device incidents

                A case that shows one of these is stored like any other; the answer's `notes`, and `mayBeReportable` of many
                cases at once, point its sender at the rules. Whether a case is to be reported, by whom and when, is for
                your own safety office: the registry does not judge it and reports nothing.

                | id | sign | source |
                | --- | --- | --- |
                """);
        for (IncidentSign sign : IncidentSign.values()) {
            page.append("| `%s` | %s | %s |\n"
                    .formatted(
                            sign.name().toLowerCase(Locale.ROOT).replace('_', '-'),
                            cell(sign.reason()),
                            cell(sign.source())));
        }
        return page.toString();
    }

    private static String rules(CaseRule.Kind kind) {
        return Stream.of(CaseRule.values())
                .filter(rule -> rule.kind() == kind)
                .map(rule -> "| `%s` | %s | %s |\n".formatted(rule.id(), cell(rule.sentence()), cell(rule.source())))
                .collect(Collectors.joining("", "| id | rule | source |\n| --- | --- | --- |\n", ""));
    }

    private static String cell(String text) {
        return text.replace("|", "\\|");
    }
}
