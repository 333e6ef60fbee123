package entrapment.registry.demo;

import entrapment.registry.demo.DemoNetwork.Flaws;
import entrapment.registry.demo.DemoNetwork.Quarter;
import entrapment.registry.demo.DemoTruth.Baseline;
import entrapment.registry.demo.DemoTruth.Centre;
import entrapment.registry.demo.DemoTruth.Effect;
import entrapment.registry.demo.DemoTruth.Technique;
import java.util.Locale;
import java.util.function.Predicate;

/** The page beside the demo files: what they are, and every planted truth, printed from the constants themselves. */
final class DemoReadme {

    private final DemoNetwork network;

    private DemoReadme(DemoNetwork network) {
        this.network = network;
    }

    static String of(DemoNetwork network) {
        DemoReadme readme = new DemoReadme(network);
        return readme.introduction()
                + readme.baselines()
                + readme.effects()
                + readme.centres()
                + readme.techniques()
                + readme.flaws();
    }

    private String introduction() {
        return String.format(
                Locale.ROOT,
                """
                # The demo network

                Three years of five hospitals in the Quorrimark network, in an invented land. **Nothing in these files
                describes a real hospital, operator, patient or device.** They were drawn at random by a program, from effects
                that were planted in it and are written down below, so that a report can be held against the truth.

                Don't learn medicine from them: a rate, an odds ratio or a technique's success in this network is what the
                program was told, not a finding. In a real department, too, registry figures are retrospective and small numbers
                mislead; during a procedure local protocols, the device's instructions for use and the licensed operator decide.

                | file | holds |
                | --- | --- |
                | `centres.csv` | %d centres, code and name |
                | `activity.csv` | the quarterly returns %s to %s: %s uses in %s rows |
                | `cases.ndjson` | %d entrapment cases, one a line, each with its `centre` in front |

                An empty cell is unknown. All rows come from seed %d, which nobody searched for. To make the files again after a
                change of the generator (`src/test/java/entrapment/registry/demo`), and review the difference:

                ```
                mvn -q -Dtest=DemoNetworkTests -DupdateExpected=true test
                ```

                ## How an entrapment was drawn

                Each use got a true lesion; its odds of entrapment are the baseline of its device class times the odds ratio of
                each factor level times the centre's multiplier, and one draw decided. Effects multiply and are the same in every
                class: no interactions. Not every return reports every factor (guidewires only vessel and total occlusion, for
                instance). A factor left out still acted; its case carries the same unknown. So even without chance an estimate
                can differ from the planted value: by factors unseen, and because odds ratios don't collapse over strata.

                """,
                DemoTruth.CENTRES.size(),
                DemoTruth.PERIODS.get(0),
                DemoTruth.PERIODS.get(DemoTruth.PERIODS.size() - 1),
                grouped(uses(quarter -> true, pattern -> true)),
                grouped(network.quarters().stream()
                        .mapToInt(quarter -> quarter.uses().size())
                        .sum()),
                network.quarters().stream()
                        .mapToInt(quarter -> quarter.cases().size())
                        .sum(),
                DemoNetwork.SEED);
    }

    private String baselines() {
        StringBuilder rows = new StringBuilder("""
                ## Planted: device classes

                Baseline: calcification none, tortuosity mild, no total occlusion, no stent layer, an established operator, a burr
                larger than 1.25 mm, a centre with multiplier 1. Overall rates are higher, because this network treats much calcium,
                and are set high on purpose: at published rates (4 burrs in 442 procedures, Sulimov 2013,
                doi:10.4244/EIJV9I2A41; 4 entrapments in 2,338 interventions, Iturbe 2012, PMID 22562915) a network this small
                would have too few cases to show.

                | device class | baseline per 1,000 uses | baseline log-odds | uses returned | cases |
                | --- | --: | --: | --: | --: |
                """);
        for (Baseline baseline : DemoTruth.BASELINES) {
            String deviceClass = baseline.deviceClass();
            rows.append(String.format(
                    Locale.ROOT,
                    "| `%s` | %.1f | %.4f | %s | %d |\n",
                    deviceClass,
                    baseline.perThousand(),
                    StrictMath.log(baseline.odds()),
                    grouped(uses(
                            quarter -> true, pattern -> pattern.deviceClass().equals(deviceClass))),
                    network.quarters().stream()
                            .mapToInt(quarter -> quarter.casesWith(deviceClass).size())
                            .sum()));
        }
        return rows.append('\n').toString();
    }

    private String effects() {
        StringBuilder rows = new StringBuilder("""
                ## Planted: risk factors

                | factor | level | odds ratio | against |
                | --- | --- | --: | --- |
                """);
        for (Effect effect : DemoTruth.EFFECTS) {
            rows.append(String.format(
                    Locale.ROOT,
                    "| `%s` | `%s` | %.1f | `%s` |\n",
                    effect.factor(),
                    effect.level(),
                    effect.oddsRatio(),
                    reference(effect.factor())));
        }
        rows.append(String.format(
                Locale.ROOT, "| `deviceSizeMm` of a burr | 1.25 | %.1f | any larger |\n", DemoTruth.SMALL_BURR));
        return rows.append("""

                        Everything else is without effect on entrapment: vessel, guide size, other device sizes, and whatever is known
                        of a case only (age, sex, presentation, access, angulation).

                        """).toString();
    }

    private static String reference(String factor) {
        return switch (factor) {
            case "calcification" -> "none";
            case "tortuosity" -> "mild";
            case "totalOcclusion" -> "no";
            case "stentLayers" -> "0";
            default -> "established";
        };
    }

    private String centres() {
        StringBuilder rows = new StringBuilder("""
                ## Planted: centres and time

                | centre | multiplier of the odds | uses returned | cases |
                | --- | --: | --: | --: |
                """);
        for (Centre centre : DemoTruth.CENTRES) {
            rows.append(String.format(
                    Locale.ROOT,
                    "| `%s` %s | %.1f | %s | %d |\n",
                    centre.code(),
                    centre.name(),
                    centre.oddsMultiplier(),
                    grouped(uses(quarter -> quarter.centre().equals(centre.code()), pattern -> true)),
                    network.quarters().stream()
                            .filter(quarter -> quarter.centre().equals(centre.code()))
                            .mapToInt(quarter -> quarter.cases().size())
                            .sum()));
        }
        return rows.append(String.format(
                        Locale.ROOT,
                        """

                        One change in time: at `%s`, from %s on, the odds that a `%s` is entrapped are multiplied by
                        %.1f. Chance has its part in what the files show: %s before, %s since.
                        Nothing else changes over the twelve quarters.

                        """,
                        DemoTruth.CHANGE_CENTRE,
                        DemoTruth.CHANGE_FROM,
                        DemoTruth.CHANGE_CLASS,
                        DemoTruth.CHANGE,
                        atChange(period -> period.compareTo(DemoTruth.CHANGE_FROM) < 0),
                        atChange(period -> period.compareTo(DemoTruth.CHANGE_FROM) >= 0)))
                .toString();
    }

    private String atChange(Predicate<String> when) {
        Predicate<Quarter> there =
                quarter -> quarter.centre().equals(DemoTruth.CHANGE_CENTRE) && when.test(quarter.period());
        return String.format(
                Locale.ROOT,
                "%d cases in %d uses",
                network.quarters().stream()
                        .filter(there)
                        .mapToInt(quarter ->
                                quarter.casesWith(DemoTruth.CHANGE_CLASS).size())
                        .sum(),
                uses(there, pattern -> pattern.deviceClass().equals(DemoTruth.CHANGE_CLASS)));
    }

    private String techniques() {
        StringBuilder rows = new StringBuilder(String.format(Locale.ROOT, """
                ## Planted: techniques

                The probability that an attempt releases the device, as the first attempt of a case. Each earlier failed attempt
                multiplies it by %.2f, except for surgery. It depends on nothing else: not on the device class, the patient's state
                or the centre. But a technique is tried only in classes and at moments where it is usual, so all attempts of a
                technique together succeed less often than the table says.

                | technique | releases at the first try |
                | --- | --: |
                """, DemoTruth.LATER_TRY));
        for (Technique technique : DemoTruth.TECHNIQUES) {
            rows.append(String.format(Locale.ROOT, "| `%s` | %.2f |\n", technique.code(), technique.firstTry()));
        }
        return rows.append("""

                        The three with 0.00 end a case with the device, or part of it, left behind. Surgery is never the
                        first attempt. Outcomes follow the attempts by plain rules (`DemoRescue`, `DemoOutcome`); no comparison of
                        outcomes was planted.

                        """).toString();
    }

    private String flaws() {
        Flaws flaws = network.flaws();
        return String.format(
                Locale.ROOT,
                """
                ## Planted: flaws of the data

                * No return: `%s` never sent the return of %s, although it reported %d case in it.
                * More cases than uses: the return of `%s` for %s counts 1 use of `%s`, a slip; it reported %d cases.
                * Calcification and tortuosity were not written down in %.0f %% of the uses of classes that report them, whatever
                  happened in the use.
                * `%s` did not count who operated before %s.

                Apart from the first two, every case has its use: the same centre, quarter and pattern in `activity.csv`, counted at
                least as often as it occurs among the cases.
                """,
                flaws.withoutReturn().centre(),
                flaws.withoutReturn().period(),
                flaws.withoutReturn().cases().size(),
                flaws.miscounted().centre(),
                flaws.miscounted().period(),
                flaws.miscountedClass(),
                flaws.miscounted().casesWith(flaws.miscountedClass()).size(),
                DemoLesions.NOT_WRITTEN_DOWN * 100,
                DemoLesions.STAGE_UNKNOWN_AT,
                DemoLesions.STAGE_KNOWN_FROM);
    }

    private int uses(Predicate<Quarter> of, Predicate<UsePattern> with) {
        return network.quarters().stream()
                .filter(of)
                .flatMap(quarter -> quarter.uses().entrySet().stream())
                .filter(use -> with.test(use.getKey()))
                .mapToInt(use -> use.getValue())
                .sum();
    }

    private static String grouped(int count) {
        return String.format(Locale.ROOT, "%,d", count);
    }
}
