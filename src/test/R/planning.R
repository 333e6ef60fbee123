# Section 11: planning.

program("plan-comparison",
  fields = list(
    n1Exact = plain, n1 = plain, n2 = plain, n1Continuity = plain, n1ContinuityRounded = plain,
    n2ContinuityRounded = plain, eventsExpected = plain, power = "stats::power.prop.test"),
  cite = c(
    "Fleiss JL, Levin B, Paik MC, Statistical Methods for Rates and Proportions, Wiley 2003",
    "Fleiss JL, Tytun A, Ury HK, Biometrics 1980;36:343"),
  answer = function(input) {
    p1 <- input$p1
    p2 <- input$p2
    k <- or_else(input$ratio, 1)
    mean <- (p1 + k * p2) / (1 + k)
    za <- qnorm(input$alpha / 2, lower.tail = FALSE)
    zb <- qnorm(input$power)
    spread <- za * sqrt((1 + 1 / k) * mean * (1 - mean)) + zb * sqrt(p1 * (1 - p1) + p2 * (1 - p2) / k)
    exact <- (spread / (p1 - p2))^2
    corrected <- exact / 4 * (1 + sqrt(1 + 2 * (k + 1) / (exact * k * abs(p1 - p2))))^2
    if (k == 1) {
      theirs <- power.prop.test(p1 = p1, p2 = p2, power = input$power, sig.level = input$alpha, tol = 1e-12)
      compare("n1Exact", exact, theirs$n, "stats::power.prop.test")
    }
    answer <- list(
      n1Exact = exact,
      n1 = ceiling(exact),
      n2 = ceiling(k * ceiling(exact)),
      n1Continuity = corrected,
      n1ContinuityRounded = ceiling(corrected),
      n2ContinuityRounded = ceiling(k * ceiling(corrected)),
      eventsExpected = ceiling(exact) * p1 + ceiling(k * ceiling(exact)) * p2)
    if (!is.null(input$n1)) {
      stopifnot(k == 1)
      answer$power <- power.prop.test(n = input$n1, p1 = p1, p2 = p2, sig.level = input$alpha)$power
    }
    answer
  })

program("plan-precision",
  fields = list(
    nWilson = "stats::prop.test", halfWidthAtN = "stats::prop.test", nWald = plain,
    nForZeroEventsBelow = "stats::pbinom"),
  cite = c(
    "Wilson EB, J Am Stat Assoc 1927;22:209, doi:10.1080/01621459.1927.10502953",
    "Hanley JA, Lippman-Hand A, JAMA 1983;249:1743"),
  answer = function(input) {
    p <- input$anticipatedProportion
    level <- input$confidence
    half_width <- function(n) {
      score <- wilson(n * p, n, level)
      (score$upper - score$lower) / 2
    }
    low <- 1
    high <- 2^30
    while (high > low) {
      middle <- (low + high) %/% 2
      if (half_width(middle) <= input$halfWidth) high <- middle else low <- middle + 1
    }
    # The smallest size at which no event at all has probability 1 - level or less.
    none <- 1
    while (pbinom(0, none, input$zeroEventBound) > 1 - level) none <- none + 1
    list(
      nWilson = high,
      halfWidthAtN = half_width(high),
      nWald = if (p %in% c(0, 1)) NA else ceiling(normal_quantile(level)^2 * p * (1 - p) / input$halfWidth^2),
      nForZeroEventsBelow = none)
  })

program("plan-detectable-change",
  fields = list(
    expectedEvents = plain, criticalCount = "stats::qbinom", attainedAlpha = "stats::pbinom",
    detectableProportion = "stats::qbeta", detectableRatio = "stats::qbeta", decreaseCriticalCount = "stats::pbinom",
    decreaseDetectableProportion = "stats::qbeta"),
  cite = c(
    "Clopper CJ, Pearson ES, Biometrika 1934;26:404 (beta form of the binomial tail)",
    "Casagrande JT, Pike MC, Smith PG, Biometrics 1978;34:483"),
  answer = function(input) {
    n <- input$volume
    alpha <- input$alphaOneSided
    # P(X >= c) <= alpha exactly when P(X <= c - 1) >= 1 - alpha.
    critical <- qbinom(alpha, n, input$p0, lower.tail = FALSE) + 1
    p1 <- qbeta(input$power, critical, n - critical + 1)
    lower <- max(c(-1, which(pbinom(0:n, n, input$p0) <= alpha) - 1))
    compare("detectableProportion", input$power, pbinom(critical - 1, n, p1, lower.tail = FALSE), "stats::pbinom")
    list(
      expectedEvents = n * input$p0,
      criticalCount = critical,
      attainedAlpha = pbinom(critical - 1, n, input$p0, lower.tail = FALSE),
      detectableProportion = p1,
      detectableRatio = p1 / input$p0,
      decreaseCriticalCount = if (lower < 0) NA else lower,
      decreaseDetectableProportion =
        if (lower < 0) NA else qbeta(input$power, lower + 1, n - lower, lower.tail = FALSE))
  })
