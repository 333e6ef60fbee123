package entrapment.registry.reports.planning;

import static entrapment.registry.reports.question.ReportSamples.CUT;
import static entrapment.registry.reports.question.ReportSamples.SCOPE;
import static entrapment.registry.reports.question.ReportSamples.counted;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import entrapment.registry.reports.question.Counting;
import java.util.List;
import org.junit.jupiter.api.Test;

/** How long until we could tell, on hand-made counts. */
class PlanningReportTests {

    private static PlanningReport planning(Counting counting) {
        return PlanningReport.of(new PlanningQuery(SCOPE, List.of(), null, 0.8), CUT, counting);
    }

    /** Reference plan-detectable-1200: 1,200 uses a year at 0.5 % show a rise to 2.458897556 times the rate. */
    @Test
    void saysWhatAYearOfThisVolumeCouldShow() {
        PlanningReport report = planning(counted("2029-Q1 1 300", "2029-Q2 2 300", "2029-Q3 1 300", "2029-Q4 2 300"));

        assertThat(report.groups()).singleElement().satisfies(plan -> {
            assertThat(plan.usesPerYear()).isEqualTo(1_200);
            assertThat(plan.detectableRatio()).isCloseTo(2.45889755611852, within(1e-6));
            assertThat(plan.usesForHalfWidth()).isEqualTo(3_233);
            assertThat(plan.sentence()).contains("only a rise to 2.46 times the rate of 5.0 per 1,000");
        });
    }

    @Test
    void plansNothingFromNoEvent() {
        assertThat(planning(counted("2029-Q1 0 300")).groups()).singleElement().satisfies(plan -> assertThat(
                        plan.sentence())
                .isEqualTo("0 entrapments in 300 uses: no rate to plan from."));
    }

    @Test
    void answersForNothing() {
        assertThat(planning(counted()).groups()).isEmpty();
    }
}
