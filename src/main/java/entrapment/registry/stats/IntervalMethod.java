package entrapment.registry.stats;

/** The ways to an interval for a proportion. */
public enum IntervalMethod {
    /** The default: right on average, and one closed formula that every reader can check. */
    WILSON(
            "wilson",
            "Wilson score interval",
            "Wilson EB, J Am Stat Assoc 1927;22:209-212, doi:10.1080/01621459.1927.10502953"),
    /** Wilson's interval widened by half an event on either side. */
    WILSON_CONTINUITY(
            "wilson-continuity",
            "Wilson score interval with continuity correction",
            "Newcombe RG, Stat Med 1998;17:857-872 (method 4)"),
    /** Never falls short of its level; for reports where that must be guaranteed. */
    CLOPPER_PEARSON(
            "clopper-pearson", "Clopper-Pearson exact interval", "Clopper CJ, Pearson ES, Biometrika 1934;26:404-413"),
    /** Equal-tailed posterior interval under Jeffreys' prior, closed at the ends. */
    JEFFREYS(
            "jeffreys",
            "Jeffreys interval",
            "Brown LD, Cai TT, DasGupta A, Stat Sci 2001;16:101-133, doi:10.1214/ss/1009213286");

    private final String code;
    private final String title;
    private final String citation;

    IntervalMethod(String code, String title, String citation) {
        this.code = code;
        this.title = title;
        this.citation = citation;
    }

    /** The code in requests and answers. */
    public String code() {
        return code;
    }

    /** Code, name and citation, for an answer to quote. */
    public Method method() {
        return new Method(code, title, citation);
    }
}
