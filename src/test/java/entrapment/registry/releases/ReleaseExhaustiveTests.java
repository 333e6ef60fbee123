package entrapment.registry.releases;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.releases.OutsideAttack.Row;
import entrapment.registry.releases.Sum.Measure;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Small networks, and every table of whole numbers that agrees with what their releases print. */
class ReleaseExhaustiveTests {

    private static final int THRESHOLD = 3;

    @Test
    void everySmallSumIsHeldApartByTablesThatPrintTheSame() {
        int looked = 0;
        int small = 0;
        for (long seed = 0; seed < 120; seed++) {
            History history = new History(seed, 2, 2, 0.3 + seed % 4 * 0.3, 8);
            assertThat(history.release(2021, THRESHOLD).safe()).isTrue();
            assertThat(history.release(2022, THRESHOLD).safe()).isTrue();
            List<Row> targets = small(history);

            EveryFilling every = every(history, targets);
            if (every.run()) {
                looked++;
                for (Row row : targets) {
                    small++;
                    assertThat(every.most(row)).as("seed %d %s", seed, row).isGreaterThanOrEqualTo(THRESHOLD);
                    assertThat(every.most(row) - every.least(row))
                            .as("seed %d %s", seed, row)
                            .isGreaterThanOrEqualTo(THRESHOLD - 1);
                }
            }
        }
        assertThat(looked).isGreaterThan(60);
        assertThat(small).isGreaterThan(300);
    }

    /** Fractions may reach a little further than whole numbers, never less far. */
    @Test
    void theAttackReachesEveryTableAndItsWitnessesAreAmongThem() {
        int looked = 0;
        int exact = 0;
        int all = 0;
        for (long seed = 0; seed < 60; seed++) {
            History history = new History(1_000 + seed, 2, 2, 0.8, 8);
            history.release(2022, THRESHOLD);
            List<Row> targets = List.copyOf(history.targets());

            EveryFilling every = every(history, targets);
            if (every.run()) {
                looked++;
                Attack attack = attack(history);
                for (Row row : targets) {
                    Attack.Reach reach = attack.reach(sum(row), THRESHOLD, Attack.Effort.SEARCH);
                    assertThat(reach.minimum()).isLessThan(every.least(row) + 1e-6);
                    assertThat(reach.maximum()).isGreaterThan(every.most(row) - 1e-6);
                    for (Attack.Witness witness :
                            List.of(Objects.requireNonNull(reach.low()), Objects.requireNonNull(reach.high()))) {
                        assertThat(witness.value()).isBetween(every.least(row), every.most(row));
                    }
                    all++;
                    exact += Math.abs(reach.minimum() - every.least(row)) < 1e-6
                                    && Math.abs(reach.maximum() - every.most(row)) < 1e-6
                            ? 1
                            : 0;
                }
            }
        }
        assertThat(looked).isGreaterThan(20);
        assertThat(exact).isGreaterThan(all * 95 / 100);
    }

    private static Attack attack(History history) {
        Set<Integer> throughYears = new TreeSet<>();
        history.releases().forEach(release -> throughYears.add(release.throughYear()));
        return new Attack(
                new Unknowns(
                        history.codes().deviceClasses(),
                        history.codes().harms(),
                        History.FIRST_YEAR,
                        List.copyOf(throughYears)),
                Proposal.printed(history.releases()),
                List.of());
    }

    private static List<Row> small(History history) {
        return history.targets().stream()
                .filter(row -> {
                    long truth = History.truth(row, history.frozen());
                    return truth >= 1 && truth < THRESHOLD;
                })
                .toList();
    }

    private static EveryFilling every(History history, List<Row> targets) {
        List<Integer> years = IntStream.rangeClosed(
                        History.FIRST_YEAR,
                        history.releases().get(history.releases().size() - 1).throughYear())
                .boxed()
                .toList();
        return new EveryFilling(
                history.codes().deviceClasses(),
                history.codes().harms(),
                years,
                new ArrayList<>(new OutsideAttack(history.files()).shown()),
                targets);
    }

    private static Sum sum(Row row) {
        return new Sum(
                Measure.valueOf(row.measure().toUpperCase(Locale.ROOT)),
                level(row.deviceClass()),
                level(row.harm()),
                row.first(),
                row.last());
    }

    private static @Nullable String level(String text) {
        return text.equals("any") ? null : text;
    }
}
