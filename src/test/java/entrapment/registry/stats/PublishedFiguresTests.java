package entrapment.registry.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Counts printed in the device-entrapment literature. The papers print the counts; the limits beside them were computed
 * from those counts with SciPy.
 */
class PublishedFiguresTests {

    /**
     * 4 entrapments and 9 losses in 2,338 procedures: Iturbe JM et al., J Invasive Cardiol 2012;24:215, PMID 22562915. 12
     * in 5,400: Hartzler GO et al., Am J Cardiol 1987;60:1260, doi:10.1016/0002-9149(87)90604-7. 36 in 2,361: Gasparini GL
     * et al., EuroIntervention 2021, doi:10.4244/EIJ-D-20-00781. 4 in 442 burr procedures: Sulimov DS et al.,
     * EuroIntervention 2013;9:251, doi:10.4244/EIJV9I2A41. 10 of 14 retrievals and 12 of 1,147 stents: Eggebrecht H et
     * al., Catheter Cardiovasc Interv 2000;51:432. 38 in 11,773: Brilakis ES et al., Catheter Cardiovasc Interv 2005;66:333.
     */
    @ParameterizedTest
    @CsvSource({
        "4, 2338, 0.0666, 0.4391, 4",
        "9, 2338, 0.2027, 0.7300, 4",
        "12, 5400, 0.1272, 0.3880, 4",
        "36, 2361, 1.1034, 2.1036, 4",
        "4, 442, 0.3525, 2.3035, 4",
        "10, 14, 45.35, 88.28, 2",
        "12, 1147, 0.5995, 1.8198, 4",
        "8, 2919, 0.1389, 0.5399, 4",
        "38, 11773, 0.2353, 0.4427, 4"
    })
    void givesWilsonLimitsOfPublishedCounts(long events, long of, double lower, double upper, int decimals) {
        Interval percent = new Proportion(events, of)
                .interval(IntervalMethod.WILSON, Confidence.DEFAULT)
                .times(100);

        assertThat(percent.lower()).isCloseTo(lower, within(half(decimals)));
        assertThat(percent.upper()).isCloseTo(upper, within(half(decimals)));
    }

    /** The first three series above. */
    @ParameterizedTest
    @CsvSource({"4, 2338, 0.0466, 0.4375", "9, 2338, 0.1762, 0.7295", "12, 5400, 0.1149, 0.3879"})
    void givesExactLimitsOfPublishedCounts(long events, long of, double lower, double upper) {
        Interval percent = new Proportion(events, of)
                .interval(IntervalMethod.CLOPPER_PEARSON, Confidence.DEFAULT)
                .times(100);

        assertThat(percent.lower()).isCloseTo(lower, within(half(4)));
        assertThat(percent.upper()).isCloseTo(upper, within(half(4)));
    }

    /**
     * Stent loss, hand-crimped 12 of 1,147 against premounted 8 of 2,919: Eggebrecht H et al., Catheter Cardiovasc Interv
     * 2000;51:432, doi:10.1002/1522-726x(200012)51:4&lt;432::aid-ccd12&gt;3.0.co;2-1, who print p &lt; 0.01.
     */
    @Test
    void comparesHandCrimpedWithPremountedStents() {
        TwoByTwo table = new TwoByTwo(12, 1135, 8, 2911);

        OddsRatioAnalysis analysis = OddsRatioAnalysis.of(table, Confidence.DEFAULT);

        assertThat(analysis.oddsRatio()).isCloseTo(3.8471, within(half(4)));
        assertThat(analysis.woolf().lower()).isCloseTo(1.5685, within(half(4)));
        assertThat(analysis.woolf().upper()).isCloseTo(9.4362, within(half(4)));
        assertThat(analysis.woolf().haldaneAnscombeApplied()).isFalse();
        assertThat(analysis.fisherPValue()).isCloseTo(0.004161, within(half(6)));
        Woolf corrected = table.haldaneAnscombe(Confidence.DEFAULT);
        assertThat(corrected.oddsRatio()).isCloseTo(3.7707, within(half(4)));
        assertThat(corrected.lower()).isCloseTo(1.5734, within(half(4)));
        assertThat(corrected.upper()).isCloseTo(9.0368, within(half(4)));
        assertThat(corrected.haldaneAnscombeApplied()).isTrue();
        RelativeRiskAnalysis risk =
                RelativeRiskAnalysis.of(new Proportion(12, 1147), new Proportion(8, 2919), Confidence.DEFAULT);
        assertThat(risk.relativeRisk()).isCloseTo(3.8173, within(half(4)));
    }

    /** Small balloon 7 of 10 against forceps or snare 3 of 7, in the same paper. */
    @Test
    void comparesTwoRetrievalTechniques() {
        OddsRatioAnalysis analysis =
                OddsRatioAnalysis.of(TwoByTwo.of(new Proportion(7, 10), new Proportion(3, 7)), Confidence.DEFAULT);

        assertThat(analysis.oddsRatio()).isCloseTo(3.1111, within(half(4)));
        assertThat(analysis.woolf().lower()).isCloseTo(0.4138, within(half(4)));
        assertThat(analysis.woolf().upper()).isCloseTo(23.39, within(half(2)));
        assertThat(analysis.fisherPValue()).isCloseTo(0.350, within(half(3)));
    }

    private static double half(int decimals) {
        return 0.5 * Math.pow(10, -decimals) * (1 + 1e-9);
    }
}
