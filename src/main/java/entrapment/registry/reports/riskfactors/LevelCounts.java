package entrapment.registry.reports.riskfactors;

import entrapment.registry.reports.question.CommonNote;
import entrapment.registry.reports.question.Counting;
import entrapment.registry.reports.question.Note;
import entrapment.registry.reports.question.Words;
import entrapment.registry.stats.Proportion;
import entrapment.registry.vocabulary.Factor;
import entrapment.registry.vocabulary.Level;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Events and uses of the levels of one factor that can be compared. What is unknown, or contradicts itself, is told in the
 * notes instead.
 *
 * @param levels in their order, each by stratum; without strata, under an empty list
 */
record LevelCounts(Factor factor, Map<Level, Map<List<Level>, Proportion>> levels) {

    /** @param contradiction what is said of counts that contradict each other */
    static LevelCounts of(Factor factor, Counting counting, Note.Wording contradiction, List<Note> notes) {
        Map<Level, Map<List<Level>, Proportion>> levels = new LinkedHashMap<>();
        long unknownEvents = 0;
        long unknownUses = 0;
        for (Counting.Group group : counting.groups()) {
            Level level = group.levels().get(0);
            if (level.isUnknown()) {
                unknownEvents += group.events();
                unknownUses += group.uses();
            } else if (group.contradicts()) {
                notes.add(Note.about(
                        Note.Subject.of(factor, level),
                        contradiction,
                        Words.entrapments(group.events()),
                        Words.uses(group.uses())));
            } else {
                levels.computeIfAbsent(level, key -> new LinkedHashMap<>())
                        .put(
                                group.levels().subList(1, group.levels().size()),
                                new Proportion(group.events(), group.uses()));
            }
        }
        if (unknownEvents + unknownUses > 0) {
            notes.add(Note.about(
                    about(factor),
                    CommonNote.UNKNOWN_LEFT_OUT,
                    Words.entrapments(unknownEvents),
                    Words.uses(unknownUses)));
        }
        if (levels.size() < 2) {
            notes.add(Note.about(about(factor), CommonNote.FEWER_THAN_TWO_LEVELS));
        }
        return new LevelCounts(factor, levels);
    }

    static Note.Subject about(Factor factor) {
        return Note.Subject.field(factor.code());
    }

    boolean canBeCompared() {
        return levels.size() > 1;
    }

    Map<List<Level>, Proportion> strata(Level level) {
        return levels.getOrDefault(level, Map.of());
    }

    /** Events and uses of one level in all strata together. */
    Proportion total(Level level) {
        return strata(level).values().stream().reduce(new Proportion(0, 0), Proportion::plus);
    }

    /** The level with most uses; of several, the first. */
    Level mostUsed() {
        return levels.keySet().stream()
                .max((one, other) -> Long.compare(total(one).of(), total(other).of()))
                .orElseThrow();
    }
}
