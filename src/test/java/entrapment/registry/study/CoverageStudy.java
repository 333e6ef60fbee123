package entrapment.registry.study;

import java.util.Locale;

/**
 * The page {@code src/docs/coverage.md}: registries whose truth is known, and how often each interval holds it. Its words
 * stand here, its tables and the figures in its sentences are computed.
 */
final class CoverageStudy {

    private CoverageStudy() {}

    static String page() {
        return introduction()
                + ProportionPages.section()
                + OddsRatioPages.section()
                + AttemptsPages.section()
                + limits();
    }

    private static String introduction() {
        return """
                # How often the intervals hold the truth

                A 95 % interval promises to hold the true value in 95 of 100 registries. With a handful of events no interval keeps
                the promise to the letter. Here registries are made up whose truth is known, and the intervals of this project are
                counted: 0.950 is the promise, less falls short, more is wider than it need be. Every figure below, those in the
                sentences too, is computed by the program in `src/test/java/entrapment/registry/study`; every build compares
                the tables of proportions with it. To compute all of it again, which takes a minute, and write it:

                ```
                mvn -q -Dtest=CoverageStudyTests -Dstudy=true test
                ```

                """;
    }

    private static String limits() {
        return """
                ## What this does not show

                Coverage is a property of a method over many registries whose uses are independent and whose records are complete. It
                says nothing about missing cases, wrong denominators or a choice of what to look at after seeing the data, and no
                interval corrects those. Registry figures are retrospective and small numbers mislead; during a procedure local protocols,
                the device's instructions for use and the licensed operator decide.
                """;
    }

    /** A cell with a coverage. */
    static String cell(double coverage) {
        return String.format(Locale.ROOT, " %.3f |", coverage);
    }

    /** A number without zeros at its end. */
    static String plain(double value) {
        String text = String.format(Locale.ROOT, "%.6f", value);
        return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
    }

    /** The head of a table: every column but the first ones holds numbers. */
    static String head(int words, Iterable<String> titles) {
        StringBuilder names = new StringBuilder("|");
        StringBuilder rule = new StringBuilder("|");
        int column = 0;
        for (String title : titles) {
            names.append(' ').append(title).append(" |");
            rule.append(column++ < words ? " --- |" : " --: |");
        }
        return names.append('\n').append(rule).append('\n').toString();
    }
}
