package entrapment.registry.meetings;

import entrapment.registry.intake.Fields;
import entrapment.registry.intake.Identifying;
import java.util.List;

/** What a meeting says about a case; every text a line that names nobody. */
public record Review(List<ContributingFactor> contributingFactors, List<Remark> learningPoints, List<Remark> wentWell) {

    static final Review NONE = new Review(List.of(), List.of(), List.of());

    private static final int LONGEST_TEXT = 200;
    private static final int MOST_TEXTS = 20;

    /** One thing that contributed, by where it lies. */
    public record ContributingFactor(FactorType type, String statement) {

        static ContributingFactor read(Fields fields) {
            return new ContributingFactor(
                    fields.requiredCode("type", FactorType.class),
                    Identifying.label(fields, "statement", LONGEST_TEXT));
        }
    }

    /** A sentence. */
    public record Remark(String text) {

        static Remark read(Fields fields) {
            return new Remark(Identifying.label(fields, "text", LONGEST_TEXT));
        }
    }

    static Review read(Fields fields) {
        return new Review(
                fields.objects("contributingFactors", MOST_TEXTS, ContributingFactor::read),
                fields.objects("learningPoints", MOST_TEXTS, Remark::read),
                fields.objects("wentWell", MOST_TEXTS, Remark::read));
    }

    boolean isEmpty() {
        return contributingFactors.isEmpty() && learningPoints.isEmpty() && wentWell.isEmpty();
    }
}
