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
            "Counting rule of this registry: common practice, no single source");

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
