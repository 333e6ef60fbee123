package entrapment.registry.reports.pooled;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.reports.question.Counting;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The rate of a typical centre, on hand-made counts. */
class PooledReportTests {

    private static PooledReport pooled(Counting counting) {
        return PooledReport.of(new PooledQuery(SCOPE, List.of()), CUT, counting);
    }

    /** R metadat::dat.pritz1997; reference glmm-pritz: mu 1.37659438155288, so the median centre is at 0.798. */
    @Test
    void poolsCentresWithoutAddedHalves() {
        PooledReport report = pooled(counted(
                "a 16 17", "b 10 12", "c 4 8", "d 43 58", "e 10 10", "f 25 42", "g 13 14", "h 12 12", "i 22 41",
                "j 4 5", "k 5 6", "l 18 23", "m 58 68", "n 6 10"));

        assertThat(report.groups()).singleElement().satisfies(group -> {
            assertThat(group.estimate()).isCloseTo(1 / (1 + Math.exp(-1.37659438155288)), within(1e-5));
            assertThat(group.centres()).isEqualTo(14);
            assertThat(group.predictionLower()).isLessThan(group.lower());
        });
    }

    @Test
    void doesNotPoolFewCentresOrEvents() {
        for (Counting few : List.of(
                counted("a 9 90", "b 9 90", "c 9 90", "d 9 90"),
                counted("a 1 90", "b 0 90", "c 2 90", "d 3 90", "e 0 9"))) {
            assertThat(pooled(few).groups()).singleElement().satisfies(group -> {
                assertThat(group.estimate()).isNull();
                assertThat(group.sentence()).contains("too few to pool");
            });
        }
    }

    @Test
    void answersForNothing() {
        assertThat(pooled(counted()).groups()).isEmpty();
    }
}
