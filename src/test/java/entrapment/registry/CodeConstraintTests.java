package entrapment.registry;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.cases.Withdrawal;
import entrapment.registry.vocabulary.Code;
import entrapment.registry.vocabulary.Field;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The database refuses what the vocabulary does not have, whoever writes to it, and refuses nothing else. */
@RegistryTest
class CodeConstraintTests {

    private static final String COLUMNS = """
            select table_name || '.' || column_name
            from information_schema.columns
            where table_schema = current_schema and table_name in ('case_version', 'attempt', 'use_count')""";

    /** The checks that look at one column alone and list texts for it. */
    private static final String CHECKS = """
            select c.conrelid::regclass || '.' || a.attname as place, pg_get_constraintdef(c.oid) as definition
            from pg_constraint c
            join pg_attribute a on a.attrelid = c.conrelid and a.attnum = c.conkey[1]
            where c.contype = 'c' and cardinality(c.conkey) = 1
              and c.conrelid in ('case_version'::regclass, 'attempt'::regclass, 'use_count'::regclass)
              and pg_get_constraintdef(c.oid) like '%ARRAY[%'
            order by place""";

    private static final Pattern LITERAL = Pattern.compile("'([^']*)'::text");

    @Autowired
    private TestNetwork network;

    @Test
    void everyCodedColumnAllowsExactlyTheCodesOfItsField() {
        Map<String, Set<String>> vocabulary = new HashMap<>();
        Field.coded().forEach(field -> vocabulary.put(snake(field.code()), codes(field.codes())));
        vocabulary.put("withdrawn", codes(List.of(Withdrawal.values())));
        Map<String, Set<String>> expected = new TreeMap<>();
        for (String place : network.database().sql(COLUMNS).query(String.class).list()) {
            Set<String> codes = vocabulary.get(place.substring(place.indexOf('.') + 1));
            // The number of an attempt shares its name with the position in the vessel.
            if (codes != null && !place.equals("attempt.position")) {
                expected.put(place, codes);
            }
        }

        assertThat(checks()).isEqualTo(expected);
    }

    @Test
    void everyFieldOfTheVocabularyIsAColumnOfACaseOrItsAttempts() {
        assertThat(checks().keySet().stream()
                        .filter(place -> !place.startsWith("use_count."))
                        .map(place -> place.substring(place.indexOf('.') + 1)))
                .containsExactlyInAnyOrderElementsOf(Stream.concat(
                                Field.coded().stream().map(Field::code).map(CodeConstraintTests::snake),
                                Stream.of("withdrawn"))
                        .toList());
    }

    private Map<String, Set<String>> checks() {
        Map<String, Set<String>> checks = new TreeMap<>();
        network.database().sql(CHECKS).query().listOfRows().forEach(row -> {
            Set<String> before = checks.put(
                    String.valueOf(row.get("place")),
                    LITERAL.matcher(String.valueOf(row.get("definition")))
                            .results()
                            .map(MatchResult::group)
                            .map(literal -> literal.substring(1, literal.lastIndexOf('\'')))
                            .collect(Collectors.toCollection(TreeSet::new)));
            assertThat(before).as("a second check of %s", row.get("place")).isNull();
        });
        return checks;
    }

    private static Set<String> codes(List<? extends Code> codes) {
        return codes.stream().map(Code::code).collect(Collectors.toCollection(TreeSet::new));
    }

    private static String snake(String field) {
        return field.replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    }
}
