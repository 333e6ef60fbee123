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
 * </table>
 *
 * <p>All of them also stand in ReferenceTests (values computed by another program), PublishedFiguresTests (figures printed
 * in papers), SeededTests (laws on random counts) and EdgeTests (both sides of every boundary).
 */
@NullMarked
package entrapment.registry.stats;

import org.jspecify.annotations.NullMarked;
