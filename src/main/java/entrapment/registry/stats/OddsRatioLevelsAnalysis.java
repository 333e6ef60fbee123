package entrapment.registry.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Odds ratios of a factor with several levels, each level against the same reference level.
 *
 * @param reference name of the reference level
 * @param levels all others, in the order given
 * @param overall one test of all levels together; the p-values of single levels come second to it
 * @param notes why a figure is missing, infinite or to be read with care
 */
public record OddsRatioLevelsAnalysis(String reference, List<Level> levels, OverallTest overall, List<Note> notes) {

    /**
     * One level against the reference; the fields are those of {@link OddsRatioAnalysis}.
     *
     * @param name as the caller wrote it
     * @param estimable {@code false} also where nobody is at this level
     */
    public record Level(
            String name,
            boolean estimable,
            @Nullable Double oddsRatio,
            Woolf woolf,
            @Nullable Double conditionalMle,
            Interval midP,
            double fisherPValue,
            double midPValue) {

        private static Level of(String name, OddsRatioAnalysis table) {
            return new Level(
                    name,
                    table.estimable(),
                    table.oddsRatio(),
                    table.woolf(),
                    table.conditionalMle(),
                    table.midP(),
                    table.fisherPValue(),
                    table.midPValue());
        }
    }

    /**
     * Each level's 2×2 table with the reference level, and the overall test.
     *
     * <p>Valid, formula, accuracy and references: as {@link OddsRatioAnalysis#of} and {@link OverallTest#of}.
     *
     * <p>Edges: a level without anybody is listed with {@code estimable = false} and left out of the overall test.
     *
     * @param groups two or more levels with different names
     * @param reference a level's name; {@code null} takes the level with the largest denominator, the first if tied
     * @throws IllegalArgumentException if there are fewer than two levels, a name occurs twice, or the reference is none
     *     of them
     */
    public static OddsRatioLevelsAnalysis of(List<Group> groups, @Nullable String reference, Confidence confidence) {
        Group base = reference(groups, reference);
        List<Level> levels = new ArrayList<>();
        List<Note> notes = new ArrayList<>();
        for (Group group : groups) {
            if (!group.equals(base)) {
                OddsRatioAnalysis table =
                        OddsRatioAnalysis.of(TwoByTwo.of(group.proportion(), base.proportion()), confidence);
                levels.add(Level.of(group.name(), table));
                table.notes().forEach(note -> notes.add(new Note(note.code(), group.name() + ": " + note.text())));
            }
        }
        OverallTest overall =
                OverallTest.of(groups.stream().map(Group::proportion).toList());
        notes.addAll(overall.notes());
        return new OddsRatioLevelsAnalysis(base.name(), List.copyOf(levels), overall, List.copyOf(notes));
    }

    private static Group reference(List<Group> groups, @Nullable String reference) {
        Counts.require("number of levels", groups.size(), 2, Counts.LARGEST);
        Counts.requireDifferent("levels", groups.stream().map(Group::name));
        Group largest = groups.get(0);
        Group named = null;
        for (Group group : groups) {
            largest = group.proportion().of() > largest.proportion().of() ? group : largest;
            named = group.name().equals(reference) ? group : named;
        }
        if (reference != null && named == null) {
            throw new IllegalArgumentException("reference must be the name of a level");
        }
        return named == null ? largest : named;
    }
}
