package entrapment.registry.stats;

/** What came of fitting a model in which centres differ. */
sealed interface CentreFit {

    /**
     * The maximum was found.
     *
     * @param location of the centres: a proportion or a logit, as the model says
     * @param spread between them; 0 if the maximum lies at that boundary
     * @param standardError of the location; infinite if the model does not give one
     * @param lr likelihood-ratio statistic against centres that do not differ
     */
    record Converged(double location, double spread, double standardError, double lr) implements CentreFit {

        boolean boundary() {
            return spread == 0;
        }

        /** ½P(χ²₁ &gt; LR); 1 at the boundary, where half of all samples of like centres lie. */
        double halfPValue() {
            return boundary() ? 1 : Math.max(Double.MIN_NORMAL, ChiSquaredTest.upperTail(lr, 1) / 2);
        }
    }

    /**
     * There is no maximum within reach, so there is nothing to show.
     *
     * @param why one plain sentence
     */
    record NotConverged(String why) implements CentreFit {}
}
