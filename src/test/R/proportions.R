# Section 1: proportions.

program("proportion",
  fields = list(
    estimate = "stats::binom.test", wilson = "stats::prop.test", wilsonContinuity = "stats::prop.test",
    clopperPearson = "stats::binom.test", jeffreys = "stats::qbeta", zeroEventUpperOneSided = "stats::binom.test",
    ruleOfThree = "stats::poisson.test", per1000 = "stats::prop.test"),
  cite = c(
    "Wilson EB, J Am Stat Assoc 1927;22:209, doi:10.1080/01621459.1927.10502953",
    "Newcombe RG, Stat Med 1998;17:857",
    "Clopper CJ, Pearson ES, Biometrika 1934;26:404",
    "Brown LD, Cai TT, DasGupta A, Stat Sci 2001;16:101, doi:10.1214/ss/1009213286",
    "Hanley JA, Lippman-Hand A, JAMA 1983;249:1743"),
  answer = function(input) {
    x <- input$events
    n <- input$of
    level <- input$confidence
    if (n == 0) {
      return(list(
        estimate = NA, wilson = no_interval, wilsonContinuity = no_interval, clopperPearson = no_interval,
        jeffreys = no_interval, zeroEventUpperOneSided = NA, ruleOfThree = NA,
        per1000 = c(estimate = NA, no_interval)))
    }
    exact <- binom.test(x, n, conf.level = level)
    score <- wilson(x, n, level)
    # prop.test shrinks its correction where |x - n/2| < 1/2; Newcombe's method 4, the one meant here, does not.
    stopifnot(abs(x - n / 2) >= 0.5)
    corrected <- interval(quietly(prop.test(x, n, conf.level = level, correct = TRUE))$conf.int)
    tail <- (1 - level) / 2
    jeffreys <- c(
      if (x == 0) 0 else qbeta(tail, x + 0.5, n - x + 0.5),
      if (x == n) 1 else qbeta(tail, x + 0.5, n - x + 0.5, lower.tail = FALSE))
    none <- x == 0

    compare("wilson", score, epitools::binom.wilson(x, n, level)[c("lower", "upper")], "epitools::binom.wilson")
    compare("clopperPearson", interval(exact$conf.int), epitools::binom.exact(x, n, level)[c("lower", "upper")],
      "epitools::binom.exact", 1e-3,
      "its roots are searched for with uniroot's default tolerance; R's binom.test inverts the beta distribution")

    list(
      estimate = unname(exact$estimate),
      wilson = score,
      wilsonContinuity = corrected,
      clopperPearson = interval(exact$conf.int),
      jeffreys = interval(jeffreys),
      zeroEventUpperOneSided =
        if (none) binom.test(x, n, alternative = "less", conf.level = level)$conf.int[2] else NA,
      # A rule of thumb for large n: for one or two uses it passes 1, which no proportion does.
      ruleOfThree =
        if (none) min(1, poisson.test(x, n, alternative = "less", conf.level = level)$conf.int[2]) else NA,
      per1000 = list(estimate = 1000 * x / n, lower = 1000 * score$lower, upper = 1000 * score$upper))
  })
