package entrapment.registry.meetings;

import entrapment.registry.access.Viewer;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** What meetings say of their cases as rows (V011), in view as the meetings are. */
@Component
class ReviewRows {

    private static final String STATEMENTS = """
            select kind, factor_type, text
            from review_statement
            where meeting = :meeting and case_key = :caseKey
            order by position""";

    private static final String PUT = """
            insert into case_review (meeting, case_key, centre, version)
            values (:meeting, :caseKey, :centre, 1)
            on conflict (meeting, case_key) do update set version = case_review.version + 1""";

    private static final String ADD_STATEMENT = """
            insert into review_statement (meeting, case_key, centre, position, kind, factor_type, text)
            values (:meeting, :caseKey, :centre, :position, :kind, :type, :text)""";

    private static final String RATE = """
            insert into preventability_rating (meeting, case_key, key_id, centre, rating, rated_at)
            values (:meeting, :caseKey, :keyId, :centre, :rating, :now)
            on conflict (meeting, case_key, key_id) do nothing""";

    private static final String RATINGS = """
            select rating
            from preventability_rating
            where meeting = :meeting and case_key = :caseKey
            order by rated_at, key_id""";

    private static final String FACTOR = "contributing-factor";
    private static final String LEARNING = "learning-point";
    private static final String WENT_WELL = "went-well";

    private final JdbcClient jdbc;

    ReviewRows(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Definition.CaseTexts texts(String meeting, String caseKey) {
        return new Definition.CaseTexts(
                caseKey, review(meeting, caseKey), version(meeting, caseKey), ratings(meeting, caseKey));
    }

    /** 0 where there is no review yet. */
    int version(String meeting, String caseKey) {
        return jdbc.sql("select version from case_review where meeting = :meeting and case_key = :caseKey")
                .param("meeting", meeting)
                .param("caseKey", caseKey)
                .query(Integer.class)
                .optional()
                .orElse(0);
    }

    private Review review(String meeting, String caseKey) {
        List<Review.ContributingFactor> factors = new ArrayList<>();
        List<Review.Remark> learning = new ArrayList<>();
        List<Review.Remark> wentWell = new ArrayList<>();
        jdbc.sql(STATEMENTS).param("meeting", meeting).param("caseKey", caseKey).query(row -> {
            String text = row.getString("text");
            switch (row.getString("kind")) {
                case FACTOR ->
                    factors.add(new Review.ContributingFactor(
                            ColumnValues.of(FactorType.class, row.getString("factor_type")), text));
                case LEARNING -> learning.add(new Review.Remark(text));
                default -> wentWell.add(new Review.Remark(text));
            }
        });
        return new Review(List.copyOf(factors), List.copyOf(learning), List.copyOf(wentWell));
    }

    void put(StoredMeeting meeting, String caseKey, Review review) {
        jdbc.sql(PUT)
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .param("centre", meeting.centre())
                .update();
        jdbc.sql("delete from review_statement where meeting = :meeting and case_key = :caseKey")
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .update();
        int position = 1;
        for (Review.ContributingFactor factor : review.contributingFactors()) {
            add(meeting, caseKey, position++, FACTOR, factor.type(), factor.statement());
        }
        for (Review.Remark remark : review.learningPoints()) {
            add(meeting, caseKey, position++, LEARNING, null, remark.text());
        }
        for (Review.Remark remark : review.wentWell()) {
            add(meeting, caseKey, position++, WENT_WELL, null, remark.text());
        }
    }

    private void add(
            StoredMeeting meeting, String caseKey, int position, String kind, @Nullable FactorType type, String text) {
        jdbc.sql(ADD_STATEMENT)
                .param("meeting", meeting.id())
                .param("caseKey", caseKey)
                .param("centre", meeting.centre())
                .param("position", position)
                .param("kind", kind)
                .param("type", ColumnValues.code(type))
                .param("text", text)
                .update();
    }

    /** Whether this reviewer had not rated the case yet. */
    boolean rate(StoredMeeting meeting, String caseKey, Preventability rating, Instant now, Viewer viewer) {
        return jdbc.sql(RATE)
                        .param("meeting", meeting.id())
                        .param("caseKey", caseKey)
                        .param("keyId", viewer.keyId())
                        .param("centre", meeting.centre())
                        .param("rating", rating.code())
                        .param("now", ColumnValues.utc(now))
                        .update()
                > 0;
    }

    PreventabilityRatings ratings(String meeting, String caseKey) {
        return PreventabilityRatings.of(
                jdbc
                        .sql(RATINGS)
                        .param("meeting", meeting)
                        .param("caseKey", caseKey)
                        .query(String.class)
                        .list()
                        .stream()
                        .map(code -> ColumnValues.of(Preventability.class, code))
                        .toList());
    }
}
