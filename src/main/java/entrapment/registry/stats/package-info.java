/**
 * Statistics of rare device events: counts in, estimates with intervals out. Plain Java and Commons Math only.
 *
 * <p>Every analysis is a record whose {@code of} computes it and whose accessors are the fields of an answer. A value that
 * cannot be estimated is {@code null}, an unbounded one infinite, and {@code notes} says why; nothing is ever NaN. Counts
 * that cannot be are refused with an {@link java.lang.IllegalArgumentException} whose message names the count and its
 * range. Nothing is random, and every transcendental function comes from Commons Math, so that the same counts give the
 * same bits everywhere.
 *
 * <p>The index a reviewer starts from. References stand in full on each class.
 *
 * <table>
 * <caption>Statistic, class, reference, R function, test</caption>
 * <tr><th>statistic</th><th>class</th><th>reference</th><th>R</th><th>test</th></tr>
 * <tr><td>proportion</td><td>{@link Proportion}, {@link ProportionAnalysis}</td>
 *     <td>Wilson 1927; Newcombe 1998 (857); Clopper, Pearson 1934; Brown, Cai, DasGupta 2001</td>
 *     <td>prop.test, binom.test, qbeta</td><td>ProportionExhaustiveTests</td></tr>
 * <tr><td>rate</td><td>{@link Rate}, {@link RateAnalysis}</td><td>Garwood 1936; Breslow, Day 1987</td>
 *     <td>poisson.test</td><td>RateExhaustiveTests</td></tr>
 * <tr><td>difference</td><td>{@link DifferenceAnalysis}</td><td>Newcombe 1998 (873)</td>
 *     <td>DescTools::BinomDiffCI</td><td>TwoGroupsExhaustiveTests</td></tr>
 * <tr><td>relative-risk</td><td>{@link RelativeRiskAnalysis}</td><td>Koopman 1984; Katz et al. 1978</td>
 *     <td>DescTools::RelRisk</td><td>TwoGroupsExhaustiveTests</td></tr>
 * <tr><td>odds-ratio</td><td>{@link TwoByTwo}, {@link OddsRatioAnalysis}</td>
 *     <td>Fisher 1935; Cornfield 1956; Lancaster 1961; Woolf 1955</td>
 *     <td>exact2x2::fisher.exact, metafor::escalc</td><td>OddsRatioExhaustiveTests</td></tr>
 * <tr><td>odds-ratio-levels</td><td>{@link OddsRatioLevelsAnalysis}, {@link OverallTest}</td>
 *     <td>as odds-ratio; Pearson 1900; Wilks 1935</td><td>chisq.test, DescTools::GTest</td>
 *     <td>OddsRatioExhaustiveTests</td></tr>
 * <tr><td>attempts</td><td>{@link AttemptsAnalysis}, {@link ClusteredProportion}</td>
 *     <td>Cochran 1977; Rao, Scott 1992; Korn, Graubard 1998; Dean, Pagano 2015</td>
 *     <td>survey::svyratio</td><td>AttemptsExhaustiveTests</td></tr>
 * <tr><td>discordance</td><td>{@link DiscordanceAnalysis}</td><td>common practice, no single source</td>
 *     <td>-</td><td>EdgeTests</td></tr>
 * <tr><td>rate-ratio</td><td>{@link RateRatioAnalysis}, {@link ConditionalDistribution}</td>
 *     <td>Przyborowski, Wilenski 1940; Lancaster 1961; Ulm 1990</td>
 *     <td>poisson.test, exactci::poisson.exact</td><td>RateRatioExhaustiveTests, RateRatioEdgeTests, RatiosSeededTests</td></tr>
 * <tr><td>adjusted-p-values</td><td>{@link AdjustedPValuesAnalysis}</td>
 *     <td>Holm 1979; Benjamini, Hochberg 1995</td><td>p.adjust</td><td>ComparisonsTests</td></tr>
 * <tr><td>pairwise-differences</td><td>{@link PairwiseDifferencesAnalysis}</td>
 *     <td>as difference, odds-ratio, adjusted-p-values</td><td>fisher.test, p.adjust</td><td>ComparisonsTests</td></tr>
 * <tr><td>stratified-odds-ratio</td>
 *     <td>{@link StratifiedOddsRatioAnalysis}, {@link MantelHaenszel}, {@link HomogeneityTest}, {@link LogConcaveSum}</td>
 *     <td>Mantel, Haenszel 1959; Robins, Breslow, Greenland 1986; Breslow, Day 1980; Tarone 1985; Mehta et al. 1985</td>
 *     <td>mantelhaen.test, DescTools::BreslowDayTest</td>
 *     <td>StratifiedOddsRatioExhaustiveTests, StratifiedOddsRatioEdgeTests</td></tr>
 * <tr><td>logistic-separation</td><td>{@link DesignMatrix}, {@link LogisticSeparationAnalysis}, {@link RecessionCone}</td>
 *     <td>Albert, Anderson 1984; Konis 2007; Lawson, Hanson 1995</td><td>detectseparation::detect_separation</td>
 *     <td>SeparationExhaustiveTests, LogisticEdgeTests</td></tr>
 * <tr><td>logistic</td><td>{@link LogisticAnalysis}, {@link LogisticLikelihood}, {@link LogisticMaximum}</td>
 *     <td>McCullagh, Nelder 1989; Peduzzi et al. 1996</td><td>glm, drop1</td>
 *     <td>LogisticExhaustiveTests, LogisticEdgeTests</td></tr>
 * <tr><td>logistic-firth</td><td>{@link LogisticFirthAnalysis}, {@link FirthFit}</td>
 *     <td>Firth 1993; Heinze, Schemper 2002; Kosmidis, Firth 2021</td><td>logistf::logistf, brglm2</td>
 *     <td>LogisticExhaustiveTests, LogisticEdgeTests</td></tr>
 * <tr><td>discrimination</td><td>{@link DiscriminationAnalysis}, {@link Concordance}</td>
 *     <td>DeLong et al. 1988; Cox 1958</td><td>pROC::ci.auc, rms::val.prob</td><td>DiscriminationExhaustiveTests</td></tr>
 * <tr><td>logistic-random-intercept</td>
 *     <td>{@link LogisticRandomInterceptAnalysis}, {@link MarginalLikelihood}, {@link MarginalMaximum}</td>
 *     <td>Pinheiro, Bates 1995; Louis 1982; Self, Liang 1987; Merlo et al. 2006</td><td>lme4::glmer(nAGQ = 25)</td>
 *     <td>RandomInterceptTests</td></tr>
 * <tr><td>trend</td><td>{@link TrendAnalysis}, {@link ExactTrend}</td><td>Cochran 1954; Armitage 1955</td>
 *     <td>prop.trend.test</td><td>TrendExhaustiveTests</td></tr>
 * <tr><td>p-chart</td><td>{@link PChartAnalysis}, {@link BinomialDistribution}</td><td>common practice, no single source</td>
 *     <td>qbinom</td><td>ChartExhaustiveTests</td></tr>
 * <tr><td>u-chart</td><td>{@link UChartAnalysis}, {@link PoissonDistribution}</td><td>common practice, no single source</td>
 *     <td>qpois</td><td>ChartExhaustiveTests</td></tr>
 * <tr><td>g-chart</td><td>{@link GChartAnalysis}</td><td>Benneyan 2001</td><td>qgeom</td>
 *     <td>ChartExhaustiveTests</td></tr>
 * <tr><td>t-chart</td><td>{@link TChartAnalysis}</td><td>Nelson 1994</td><td>qexp</td>
 *     <td>ChartExhaustiveTests</td></tr>
 * <tr><td>cusum</td><td>{@link CusumRule}, {@link CusumAnalysis}</td><td>Steiner et al. 2000</td><td>-</td>
 *     <td>CusumExhaustiveTests</td></tr>
 * <tr><td>cusum-design</td><td>{@link CusumDesignAnalysis}, {@link CusumLattice}</td><td>Reynolds, Stoumbos 1999</td>
 *     <td>solve</td><td>CusumExhaustiveTests</td></tr>
 * <tr><td>funnel</td><td>{@link FunnelAnalysis}</td><td>Spiegelhalter 2005</td><td>pbinom, qbinom</td>
 *     <td>CentresExhaustiveTests</td></tr>
 * <tr><td>funnel-overdispersion</td><td>{@link FunnelOverdispersionAnalysis}</td><td>Spiegelhalter 2005</td>
 *     <td>-</td><td>CentresExhaustiveTests</td></tr>
 * <tr><td>indirect-standardisation</td><td>{@link IndirectStandardisationAnalysis}</td>
 *     <td>Garwood 1936; Breslow, Day 1987</td><td>epitools::ageadjust.indirect, poisson.test</td>
 *     <td>CentresExhaustiveTests</td></tr>
 * <tr><td>direct-standardisation</td><td>{@link DirectStandardisationAnalysis}</td>
 *     <td>Fay, Feuer 1997; Dobson et al. 1991</td><td>epitools::ageadjust.direct</td>
 *     <td>CentresExhaustiveTests</td></tr>
 * <tr><td>missingness</td><td>{@link MissingnessAnalysis}</td><td>Wilson 1927; Little, Rubin 2019</td>
 *     <td>is.na, complete.cases</td><td>MissingDataExhaustiveTests</td></tr>
 * <tr><td>missing-outcome-bounds</td><td>{@link MissingOutcomeBoundsAnalysis}</td><td>Manski 2003</td>
 *     <td>prop.test</td><td>MissingDataExhaustiveTests</td></tr>
 * <tr><td>plan-comparison</td><td>{@link PlanComparison}, {@link PlanComparisonAnalysis}</td>
 *     <td>Fleiss, Levin, Paik 2003; Fleiss, Tytun, Ury 1980; Casagrande, Pike, Smith 1978</td>
 *     <td>power.prop.test</td><td>PlanExhaustiveTests</td></tr>
 * <tr><td>plan-precision</td><td>{@link PlanPrecisionAnalysis}</td><td>Wilson 1927; Hanley, Lippman-Hand 1983</td>
 *     <td>-</td><td>PlanExhaustiveTests</td></tr>
 * <tr><td>plan-detectable-change</td><td>{@link PlanDetectableChangeAnalysis}</td><td>Clopper, Pearson 1934</td>
 *     <td>qbinom, qbeta</td><td>PlanExhaustiveTests</td></tr>
 * <tr><td>suppression</td><td>{@link SuppressionAnalysis}, {@link SuppressionSearch}</td>
 *     <td>Hundepool et al. 2012; Fischetti, Salazar 2000</td><td>sdcTable::protectTable</td>
 *     <td>DisclosureExhaustiveTests</td></tr>
 * <tr><td>suppression-audit</td><td>{@link PublishedTable}, {@link SuppressionAuditAnalysis}, {@link Transport}</td>
 *     <td>Gusfield 1988</td><td>lpSolve::lp</td><td>DisclosureExhaustiveTests</td></tr>
 * <tr><td>shrinkage</td><td>{@link ShrinkageAnalysis}, {@link BetaBinomialFit}</td>
 *     <td>Griffiths 1973; Tarone 1979</td><td>VGAM::vglm(betabinomial)</td><td>PoolingExhaustiveTests</td></tr>
 * <tr><td>pooled-effects</td><td>{@link PooledEffectsAnalysis}, {@link BetweenVariance}</td>
 *     <td>DerSimonian, Laird 1986; Hartung, Knapp 2001; Viechtbauer 2010</td><td>metafor::rma</td>
 *     <td>PoolingExhaustiveTests</td></tr>
 * <tr><td>pooled-proportion</td><td>{@link PooledProportionAnalysis}, {@link BinomialNormalFit}, {@link GaussHermite}</td>
 *     <td>Stijnen, Hamza, Özdemir 2010; Liu, Pierce 1994</td><td>lme4::glmer, metafor::rma.glmm</td>
 *     <td>PoolingExhaustiveTests</td></tr>
 * <tr><td>silence</td><td>{@link SilenceAnalysis}</td><td>product of independent chances, no single source</td>
 *     <td>dbinom</td><td>ReportStatisticsTests</td></tr>
 * <tr><td>cusum-reach</td><td>{@link CusumReachAnalysis}</td><td>Reynolds, Stoumbos 1999</td><td>solve</td>
 *     <td>ReportStatisticsTests</td></tr>
 * <tr><td>quartiles</td><td>{@link Quartiles}</td><td>Hyndman, Fan 1996</td><td>quantile</td>
 *     <td>ReportStatisticsTests</td></tr>
 * </table>
 *
 * <p>The last three are computed for reports and are not offered by themselves. A proportion as it is shown, counts,
 * estimate and limits, is a {@link ProportionEstimate}.
 *
 * <p>All of them also stand in ReferenceTests (values computed by another program), PublishedFiguresTests (figures printed
 * in papers), SeededTests (laws on random counts) and EdgeTests (both sides of every boundary).
 */
@NullMarked
package entrapment.registry.stats;

import org.jspecify.annotations.NullMarked;
