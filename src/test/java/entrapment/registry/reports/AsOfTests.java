package entrapment.registry.reports;

import static org.assertj.core.api.Assertions.assertThat;

import entrapment.registry.RegistryTest;
import entrapment.registry.TestNetwork;
import entrapment.registry.TestNetwork.TestCentre;
import entrapment.registry.cases.CaseSamples;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@RegistryTest
class AsOfTests {

    private static final List<String> REPORTS = List.of(
            "/api/reports/incidence?by=centre,deviceClass,period",
            "/api/reports/retrieval?by=deviceClass&format=csv&comments=true",
            "/api/reports/risk-factors?factors=calcification,vessel",
            "/api/reports/incidence?by=year&format=csv");

    @Autowired
    private TestNetwork network;

    @Test
    void answersTheSameBytesForARevisionWhateverWasSubmittedSince() throws Exception {
        TestCentre centre = network.centre();
        submit(centre, 0, 40, "severe");
        centre.submitter()
                .send(
                        "PUT",
                        centre.activity("2026-Q2"),
                        "deviceClass,deviceSizeMm,vessel,calcification,uses\nrotational-burr,1.25,rca,severe,900\n",
                        "Content-Type",
                        "text/csv");
        long cut = centre.submitter()
                .get(centre.cases() + "?size=1")
                .json()
                .at("/dataCut/revision")
                .longValue();
        List<String> before = answers(cut);

        AtomicBoolean writing = new AtomicBoolean(true);
        ExecutorService threads = Executors.newFixedThreadPool(4);
        List<Future<Integer>> writers = new ArrayList<>();
        for (int writer = 0; writer < 3; writer++) {
            int own = writer;
            writers.add(threads.submit(() -> thousandth(centre, own)));
        }
        Future<List<List<String>>> reader = threads.submit(reading(cut, writing));
        int changes = 0;
        for (Future<Integer> writer : writers) {
            changes += writer.get();
        }
        centre.submitter().delete(centre.cases() + "/" + key(0), "{\"reason\": \"entered-in-error\"}", "If-Match", "*");
        writing.set(false);
        threads.shutdown();

        assertThat(changes).isGreaterThanOrEqualTo(1_000);
        assertThat(answers(cut)).isEqualTo(before);
        assertThat(reader.get()).isNotEmpty().allSatisfy(during -> assertThat(during)
                .isEqualTo(before));
        assertThat(network.steward().get(REPORTS.get(0)).body())
                .as("the newest answer has moved on")
                .isNotEqualTo(before.get(0));
    }

    /** Changes to the first forty cases and to the return, and new cases, one request each. */
    private int thousandth(TestCentre centre, int writer) {
        String[] degrees = {"none", "mild", "moderate", "severe"};
        for (int change = 0; change < 340; change++) {
            String calcification = degrees[(change + writer) % degrees.length];
            String path = centre.cases() + "/"
                    + (change % 2 == 0 ? key(writer * 10 + change % 10) : key(1_000 * writer + 100 + change));
            int status = centre.submitter()
                    .put(
                            path,
                            CaseSamples.aCase()
                                    .with("/lesion/calcification", calcification)
                                    .json(),
                            change % 2 == 0 ? new String[] {"If-Match", "*"} : new String[0])
                    .status();
            assertThat(status).isBetween(200, 201);
        }
        return 340;
    }

    private Callable<List<List<String>>> reading(long cut, AtomicBoolean writing) {
        return () -> {
            List<List<String>> answers = new ArrayList<>();
            while (writing.get()) {
                answers.add(answers(cut));
            }
            return answers;
        };
    }

    private List<String> answers(long cut) {
        return REPORTS.stream()
                .map(report -> network.steward().get(report + "&asOf=" + cut).body())
                .toList();
    }

    private static void submit(TestCentre centre, int from, int to, String calcification) {
        StringBuilder batch = new StringBuilder();
        for (int number = from; number < to; number++) {
            batch.append(CaseSamples.aCase()
                    .with("/lesion/calcification", calcification)
                    .line(key(number)));
        }
        centre.submitter().post(centre.cases(), "application/x-ndjson", batch.toString());
    }

    private static String key(int number) {
        return "as-of-" + Integer.toString(number, 36) + "-x";
    }

    @Test
    void refusesARevisionThatHasNotHappened() {
        assertThat(network.steward()
                        .get("/api/reports/incidence?asOf=999999999")
                        .status())
                .isEqualTo(422);
    }

    @Test
    void handsOutRevisionsWithoutAGapThatAReaderCouldSeeAndNoneTwice() throws Exception {
        TestCentre one = network.centre();
        TestCentre other = network.centre();
        AtomicBoolean writing = new AtomicBoolean(true);
        ExecutorService threads = Executors.newFixedThreadPool(3);
        Future<Integer> reader = threads.submit(() -> {
            int looks = 0;
            while (writing.get()) {
                requireWhole();
                looks++;
            }
            return looks;
        });
        List<Future<?>> writers = new ArrayList<>();
        for (TestCentre centre : List.of(one, other)) {
            writers.add(threads.submit(() -> {
                for (int round = 0; round < 40; round++) {
                    submit(centre, round * 5, round * 5 + 5, "severe");
                    centre.submitter()
                            .put(
                                    centre.cases() + "/single-" + Integer.toString(round, 36) + "-x",
                                    CaseSamples.aCase().json());
                    centre.submitter()
                            .put(
                                    centre.activity("2026-Q1"),
                                    "[{\"deviceClass\": \"balloon\", \"uses\": %d}]".formatted(round + 1));
                }
            }));
        }
        for (Future<?> writer : writers) {
            writer.get();
        }
        writing.set(false);
        threads.shutdown();

        assertThat(reader.get()).isPositive();
        requireWhole();
    }

    /** One statement sees one state: every number from 1 to the newest, once. */
    private void requireWhole() {
        List<Long> seen = network.database().sql("""
                        select revision from case_version union all select revision from activity_return
                        union all select -last from revision""").query(Long.class).list();
        Set<Long> versions = new TreeSet<>();
        Set<Long> blocks = new HashSet<>();
        for (long revision : seen) {
            assertThat(revision > 0 ? versions.add(revision) : blocks.add(revision))
                    .isTrue();
        }
        long newest = blocks.stream().mapToLong(last -> -last).max().orElse(0);
        assertThat(versions).hasSize((int) newest);
    }
}
