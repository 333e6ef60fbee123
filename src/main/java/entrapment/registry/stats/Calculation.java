package entrapment.registry.stats;

/** The analyses this module offers by name; {@code package-info} says which class holds each. */
public enum Calculation {
    PROPORTION(
            "proportion",
            "Proportion with score, exact and Bayesian intervals",
            "Wilson EB, J Am Stat Assoc 1927;22:209-212; Newcombe RG, Stat Med 1998;17:857-872; Clopper CJ, Pearson ES,"
                    + " Biometrika 1934;26:404-413; Brown LD, Cai TT, DasGupta A, Stat Sci 2001;16:101-133;"
                    + " Hanley JA, Lippman-Hand A, JAMA 1983;249:1743-1745"),
    RATE(
            "rate",
            "Events per exposure with exact Poisson interval",
            "Garwood F, Biometrika 1936;28:437-442; Breslow NE, Day NE, Statistical Methods in Cancer Research II,"
                    + " IARC 1987 (Byar's approximation)"),
    DIFFERENCE(
            "difference",
            "Difference of two proportions with hybrid score interval",
            "Newcombe RG, Stat Med 1998;17:873-890 (methods 10 and 11)"),
    RELATIVE_RISK(
            "relative-risk",
            "Ratio of two proportions with score interval",
            "Koopman PAR, Biometrics 1984;40:513-517; Gart JJ, Nam J, Biometrics 1988;44:323-338; Katz D et al.,"
                    + " Biometrics 1978;34:469-474"),
    ODDS_RATIO(
            "odds-ratio",
            "Odds ratio of a 2x2 table with mid-P and exact conditional intervals",
            "Fisher RA, J R Stat Soc 1935;98:39-82; Cornfield J, Proc Third Berkeley Symp 1956;4:135-148; Lancaster HO,"
                    + " J Am Stat Assoc 1961;56:223-234 (mid-P); Woolf B, Ann Hum Genet 1955;19:251-253;"
                    + " Fagerland MW, Lydersen S, Laake P, Stat Methods Med Res 2015;24:224-254"),
    ODDS_RATIO_LEVELS(
            "odds-ratio-levels",
            "Odds ratios of several levels against one reference level, with an overall test",
            "Lancaster HO, J Am Stat Assoc 1961;56:223-234 (mid-P); Woolf B, Ann Hum Genet 1955;19:251-253; Pearson K,"
                    + " Philos Mag 1900;50:157-175; Wilks SS, Ann Math Stat 1935;6:190-196"),
    ATTEMPTS(
            "attempts",
            "Success per case, at first attempt and per attempt, allowing for attempts that share a case",
            "Cochran WG, Sampling Techniques, 3rd ed., Wiley 1977; Rao JNK, Scott AJ, Biometrics 1992;48:577-585;"
                    + " Korn EL, Graubard BI, Surv Methodol 1998;24:193-201; Dean N, Pagano M,"
                    + " J Surv Stat Methodol 2015;3:484-503"),
    DISCORDANCE(
            "discordance",
            "Rows whose numerator and denominator contradict each other",
            "Counting rule of this registry: common practice, no single source"),
    RATE_RATIO(
            "rate-ratio",
            "Ratio of two rates with mid-P and exact conditional intervals",
            "Przyborowski J, Wilenski H, Biometrika 1940;31:313-323; Lancaster HO, J Am Stat Assoc 1961;56:223-234"
                    + " (mid-P); Ulm K, Am J Epidemiol 1990;131:373-375"),
    ADJUSTED_P_VALUES(
            "adjusted-p-values",
            "p-values adjusted for the number of comparisons",
            "Holm S, Scand J Stat 1979;6:65-70; Benjamini Y, Hochberg Y, J R Stat Soc B 1995;57:289-300"),
    PAIRWISE_DIFFERENCES(
            "pairwise-differences",
            "Differences of all pairs of groups with exact and adjusted p-values",
            "As difference, odds-ratio and adjusted-p-values"),
    STRATIFIED_ODDS_RATIO(
            "stratified-odds-ratio",
            "Odds ratio common to several strata, Mantel-Haenszel and exact conditional",
            "Mantel N, Haenszel W, J Natl Cancer Inst 1959;22:719-748; Robins J, Breslow N, Greenland S, Biometrics"
                    + " 1986;42:311-323; Breslow NE, Day NE, Statistical Methods in Cancer Research I, IARC 1980;"
                    + " Tarone RE, Biometrika 1985;72:91-95; Mehta CR, Patel NR, Gray R, J Am Stat Assoc"
                    + " 1985;80:969-973"),
    LOGISTIC_SEPARATION(
            "logistic-separation",
            "Whether a logistic model has finite maximum-likelihood estimates",
            "Albert A, Anderson JA, Biometrika 1984;71:1-10; Konis K, DPhil thesis, University of Oxford 2007"),
    LOGISTIC(
            "logistic",
            "Logistic regression by maximum likelihood",
            "McCullagh P, Nelder JA, Generalized Linear Models, 2nd ed., Chapman and Hall 1989; Peduzzi P et al.,"
                    + " J Clin Epidemiol 1996;49:1373-1379 (events per parameter)"),
    LOGISTIC_FIRTH(
            "logistic-firth",
            "Logistic regression by Firth's penalised likelihood with profile intervals",
            "Firth D, Biometrika 1993;80:27-38; Heinze G, Schemper M, Stat Med 2002;21:2409-2419; Kosmidis I, Firth D,"
                    + " Biometrika 2021;108:71-82"),
    DISCRIMINATION(
            "discrimination",
            "Concordance, Brier score and calibration of predicted probabilities",
            "DeLong ER, DeLong DM, Clarke-Pearson DL, Biometrics 1988;44:837-845; Cox DR, Biometrika 1958;45:562-565"),
    LOGISTIC_RANDOM_INTERCEPT(
            "logistic-random-intercept",
            "Logistic regression with a random intercept for the centre",
            "Pinheiro JC, Bates DM, J Comput Graph Stat 1995;4:12-35; Merlo J et al., J Epidemiol Community Health"
                    + " 2006;60:290-297 (median odds ratio); Self SG, Liang KY, J Am Stat Assoc 1987;82:605-610"),
    TREND(
            "trend",
            "Trend of proportions along an ordered score, with exact p-values",
            "Cochran WG, Biometrics 1954;10:417-451; Armitage P, Biometrics 1955;11:375-386"),
    P_CHART(
            "p-chart",
            "Control chart of proportions with exact binomial limits",
            "Limits of probability on Shewhart's chart: common practice, no single source"),
    U_CHART(
            "u-chart",
            "Control chart of rates with exact Poisson limits",
            "Limits of probability on Shewhart's chart: common practice, no single source"),
    G_CHART(
            "g-chart",
            "Control chart of uneventful uses between events",
            "Benneyan JC, Health Care Manag Sci 2001;4:305-318 and 319-336"),
    T_CHART(
            "t-chart",
            "Control chart of times between events",
            "Nelson LS, J Qual Technol 1994;26:239-240; exponential limits: common practice, no single source"),
    CUSUM(
            "cusum",
            "Bernoulli CUSUM, risk-adjusted or not",
            "Steiner SH, Cook RJ, Farewell VT, Treasure T, Biostatistics 2000;1:441-452"),
    CUSUM_DESIGN(
            "cusum-design",
            "Run lengths of the Bernoulli CUSUM",
            "Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87-108"),
    FUNNEL("funnel", "Funnel plot of proportions with exact flags", "Spiegelhalter DJ, Stat Med 2005;24:1185-1202"),
    FUNNEL_OVERDISPERSION(
            "funnel-overdispersion",
            "Funnel scores allowing for differences between centres all over",
            "Spiegelhalter DJ, Stat Med 2005;24:1185-1202 and Qual Saf Health Care 2005;14:347-351"),
    INDIRECT_STANDARDISATION(
            "indirect-standardisation",
            "Observed over expected events with exact interval",
            "Garwood F, Biometrika 1936;28:437-442; Breslow NE, Day NE, Statistical Methods in Cancer Research II,"
                    + " IARC 1987"),
    DIRECT_STANDARDISATION(
            "direct-standardisation",
            "Directly standardised rate with gamma interval",
            "Fay MP, Feuer EJ, Stat Med 1997;16:791-801; Dobson AJ et al., Stat Med 1991;10:457-462"),
    MISSINGNESS(
            "missingness",
            "Missing values per field and complete cases",
            "Wilson EB, J Am Stat Assoc 1927;22:209-212; Little RJA, Rubin DB, Statistical Analysis with Missing Data,"
                    + " 3rd ed., Wiley 2019"),
    MISSING_OUTCOME_BOUNDS(
            "missing-outcome-bounds",
            "Bounds of a proportion whose outcomes are partly unknown",
            "Manski CF, Partial Identification of Probability Distributions, Springer 2003"),
    PLAN_COMPARISON(
            "plan-comparison",
            "Sizes of two groups for a comparison of proportions",
            "Fleiss JL, Levin B, Paik MC, Statistical Methods for Rates and Proportions, 3rd ed., Wiley 2003; Fleiss JL,"
                    + " Tytun A, Ury HK, Biometrics 1980;36:343-346; Casagrande JT, Pike MC, Smith PG,"
                    + " Biometrics 1978;34:483-486"),
    PLAN_PRECISION(
            "plan-precision",
            "Uses needed to know a proportion to within a half-width",
            "Wilson EB, J Am Stat Assoc 1927;22:209-212; Hanley JA, Lippman-Hand A, JAMA 1983;249:1743-1745"),
    PLAN_DETECTABLE_CHANGE(
            "plan-detectable-change",
            "Change against a known rate that so many uses would show",
            "Exact binomial test: Clopper CJ, Pearson ES, Biometrika 1934;26:404-413"),
    SUPPRESSION(
            "suppression",
            "Cells to hide so that small counts stay hidden",
            "Hundepool A et al., Statistical Disclosure Control, Wiley 2012; Fischetti M, Salazar JJ,"
                    + " J Am Stat Assoc 2000;95:916-928"),
    SUPPRESSION_AUDIT(
            "suppression-audit",
            "What can be worked out about hidden cells",
            "Gusfield D, SIAM J Comput 1988;17:552-571; Hundepool A et al., Statistical Disclosure Control, Wiley 2012"),
    SHRINKAGE(
            "shrinkage",
            "Centres' proportions allowing for chance, beta-binomial",
            "Griffiths DA, Biometrics 1973;29:637-648; Tarone RE, Biometrika 1979;66:585-590"),
    POOLED_EFFECTS(
            "pooled-effects",
            "Random-effects mean by inverse variance",
            "DerSimonian R, Laird N, Control Clin Trials 1986;7:177-188; Hartung J, Knapp G, Stat Med 2001;20:3875-3889;"
                    + " Higgins JPT, Thompson SG, Spiegelhalter DJ, J R Stat Soc A 2009;172:137-159; Viechtbauer W,"
                    + " J Stat Softw 2010;36(3)"),
    POOLED_PROPORTION(
            "pooled-proportion",
            "Proportion of a typical centre, binomial-normal",
            "Stijnen T, Hamza TH, Ozdemir P, Stat Med 2010;29:3046-3067; Merlo J et al.,"
                    + " J Epidemiol Community Health 2006;60:290-297");

    private final String code;
    private final String title;
    private final String citation;

    Calculation(String code, String title, String citation) {
        this.code = code;
        this.title = title;
        this.citation = citation;
    }

    /** The code: the last part of the calculation's path. */
    public String code() {
        return code;
    }

    /** Code, name and citation, for an answer to quote. */
    public Method method() {
        return new Method(code, title, citation);
    }
}
