# Sections 3 and 4: two risks, the odds ratio of a 2x2 table and of several levels.

# Newcombe's hybrid: the square-and-add of the two groups' own score intervals.
newcombe <- function(a, b, level, correct) {
  own <- function(group) {
    if (correct) stopifnot(abs(group$events - group$of / 2) >= 0.5)
    quietly(prop.test(group$events, group$of, conf.level = level, correct = correct))$conf.int
  }
  p <- a$events / a$of
  q <- b$events / b$of
  first <- own(a)
  second <- own(b)
  interval(c(
    max(-1, p - q - sqrt((p - first[1])^2 + (second[2] - q)^2)),
    min(1, p - q + sqrt((first[2] - p)^2 + (q - second[1])^2))))
}

program("difference",
  fields = list(
    difference = plain, newcombe = c("stats::prop.test", plain), newcombeContinuity = c("stats::prop.test", plain),
    per1000 = c("stats::prop.test", plain)),
  cite = "Newcombe RG, Stat Med 1998;17:873, methods 10 and 11",
  answer = function(input) {
    a <- input$a
    b <- input$b
    d <- a$events / a$of - b$events / b$of
    score <- newcombe(a, b, input$confidence, FALSE)
    theirs <- Epi::ci.pd(a$events, b$events, a$of - a$events, b$of - b$events, method = "Nc",
      alpha = 1 - input$confidence, print = FALSE)
    compare("newcombe", score, theirs[c(6, 7)], "Epi::ci.pd")
    list(
      difference = d,
      newcombe = score,
      newcombeContinuity = newcombe(a, b, input$confidence, TRUE),
      per1000 = list(estimate = 1000 * d, lower = 1000 * score$lower, upper = 1000 * score$upper))
  })

# The score statistic of risk ratio phi. The risks under phi solve the score equation of the two binomial likelihoods,
# found by root-finding rather than by the closed form of the quadratic.
koopman_chi2 <- function(phi, x1, n1, x2, n2) {
  score <- function(q) {
    (x1 + x2) - phi * q * (n1 - x1) / (1 - phi * q) - q * (n2 - x2) / (1 - q)
  }
  edge <- min(1, 1 / phi) * (1 - 1e-15)
  q <- root(score, 0, edge)
  p <- phi * q
  (x1 - n1 * p)^2 / (n1 * p * (1 - p)) + (x2 - n2 * q)^2 / (n2 * q * (1 - q))
}

program("relative-risk",
  fields = list(relativeRisk = plain, katz = "metafor::escalc", koopman = plain),
  cite = c(
    "Katz D et al., Biometrics 1978;34:469",
    "Koopman PAR, Biometrics 1984;40:513",
    "Gart JJ, Nam J, Biometrics 1988;44:323"),
  answer = function(input) {
    x1 <- input$a$events
    n1 <- input$a$of
    x2 <- input$b$events
    n2 <- input$b$of
    z <- normal_quantile(input$confidence)
    crit <- qchisq(input$confidence, 1)
    excess <- function(eta) koopman_chi2(exp(eta), x1, n1, x2, n2) - crit
    start <- log((x1 + 0.5) / (n1 + 1)) - log((x2 + 0.5) / (n2 + 1))
    koopman <- c(
      if (x1 == 0) 0 else exp(root_outward(excess, start, -0.1)),
      if (x2 == 0) Inf else exp(root_outward(excess, start, 0.1)))
    katz <- c(NA, NA)
    if (x1 > 0 && x2 > 0) {
      log_ratio <- metafor::escalc("RR", ai = x1, n1i = n1, ci = x2, n2i = n2)
      katz <- exp(log_ratio$yi[1] + c(-1, 1) * z * sqrt(log_ratio$vi[1]))
      theirs <- quietly(
        epitools::riskratio.wald(matrix(c(n2 - x2, n1 - x1, x2, x1), 2), conf.level = input$confidence))
      compare("katz", katz, theirs$measure[2, c("lower", "upper")], "epitools::riskratio.wald")
    }
    list(relativeRisk = (x1 / n1) / (x2 / n2), katz = interval(katz), koopman = interval(koopman))
  })

# The law of a count given all margins, under odds ratio exp(eta): support and weights at eta = 0, tilted.
tilted <- function(law, eta) {
  log_weight <- law$log_weight + law$support * eta
  weight <- exp(log_weight - max(log_weight))
  weight / sum(weight)
}

hypergeometric_law <- function(a, b, c, d) {
  support <- max(0, a + c - (c + d)):min(a + c, a + b)
  list(support = support, log_weight = dhyper(support, a + b, c + d, a + c, log = TRUE))
}

# Conditional estimate, exact and mid-P limits of exp(eta) with the count at `at`, solved here to the last digits.
conditional_inference <- function(law, at, level) {
  s <- law$support
  ends <- range(s)
  tail <- (1 - level) / 2
  above <- function(eta, weight) sum(tilted(law, eta)[s > at]) + weight * tilted(law, eta)[s == at]
  below <- function(eta, weight) sum(tilted(law, eta)[s < at]) + weight * tilted(law, eta)[s == at]
  limits <- function(weight) {
    c(
      if (at == ends[1]) 0 else exp(root_outward(function(eta) log(above(eta, weight)) - log(tail), mle, -0.5)),
      if (at == ends[2]) Inf else exp(root_outward(function(eta) log(below(eta, weight)) - log(tail), mle, 0.5)))
  }
  mean_excess <- function(eta) sum((s - at) * tilted(law, eta))
  # At an end of the support the estimate is 0 or infinite; the search for the other limit then starts from far out.
  if (at == ends[1]) {
    mle <- -20
    estimate <- 0
  } else if (at == ends[2]) {
    mle <- 20
    estimate <- Inf
  } else {
    mle <- root_outward(mean_excess, 0, if (mean_excess(0) > 0) -0.5 else 0.5)
    estimate <- exp(mle)
  }
  null <- tilted(law, 0)
  observed <- null[s == at]
  upper <- sum(null[s >= at])
  lower <- sum(null[s <= at])
  list(
    mle = estimate,
    exact = limits(1),
    midp = limits(0.5),
    minlike = sum(null[null <= observed * (1 + 1e-7)]),
    central = min(1, 2 * min(upper, lower)),
    mid = min(1, 2 * (min(upper, lower) - observed / 2)))
}

mid_p_value <- function(a, b, c, d) {
  test <- function(side) fisher.test(rbind(c(a, b), c(c, d)), alternative = side)$p.value
  min(1, 2 * min(test("less"), test("greater")) - dhyper(a, a + b, c + d, a + c))
}

odds_ratio <- function(exposed, reference, level) {
  a <- exposed$events
  b <- exposed$of - a
  c <- reference$events
  d <- reference$of - c
  stopifnot(a + b > 0, c + d > 0, a + c > 0, b + d > 0)
  z <- normal_quantile(level)
  log_odds <- metafor::escalc("OR", ai = a, bi = b, ci = c, di = d, add = 1 / 2, to = "only0")
  log_estimate <- log_odds$yi[1]
  se <- sqrt(log_odds$vi[1])
  table <- rbind(c(a, b), c(c, d))
  fisher <- fisher.test(table, conf.level = level)
  central <- 2 * min(
    fisher.test(table, alternative = "less")$p.value, fisher.test(table, alternative = "greater")$p.value)
  own <- conditional_inference(hypergeometric_law(a, b, c, d), a, level)
  mid <- mid_p_value(a, b, c, d)

  loose <- "fisher.test searches its limits with a loose root-finder: 621.93 for 626.24 in the tea table"
  compare("exact", own$exact, fisher$conf.int, "stats::fisher.test", 1e-2, loose)
  compare("conditionalMle", own$mle, fisher$estimate, "stats::fisher.test", 1e-3, loose)
  compare("fisherPValue", fisher$p.value, own$minlike, plain)
  if (min(a, b, c, d) > 0) {
    theirs <- quietly(epitools::oddsratio.midp(table, conf.level = level))
    compare("midP", own$midp, theirs$measure[2, c("lower", "upper")], "epitools::oddsratio.midp", 1e-2,
      "uniroot at its default tolerance")
    compare("midPValue", mid, theirs$p.value[2, "midp.exact"], "epitools::oddsratio.midp")
    compare("woolf", exp(log_estimate + base::c(-1, 1) * z * se),
      quietly(epitools::oddsratio.wald(table, conf.level = level))$measure[2, base::c("lower", "upper")],
      "epitools::oddsratio.wald")
  }
  list(
    estimable = TRUE,
    oddsRatio = a * d / (b * c),
    woolf = list(
      oddsRatio = exp(log_estimate),
      lower = exp(log_estimate - z * se),
      upper = exp(log_estimate + z * se),
      logStandardError = se,
      haldaneAnscombeApplied = min(a, b, c, d) == 0),
    conditionalMle = own$mle,
    exact = interval(own$exact),
    midP = interval(own$midp),
    fisherPValue = fisher$p.value,
    centralPValue = min(1, central),
    midPValue = mid)
}

two_by_two_sources <- list(
  estimable = plain, oddsRatio = plain, woolf = "metafor::escalc", conditionalMle = plain,
  exact = plain, midP = plain, fisherPValue = "stats::fisher.test", centralPValue = "stats::fisher.test",
  midPValue = c("stats::fisher.test", "stats::dhyper"))

two_by_two_citations <- c(
  "Woolf B, Ann Hum Genet 1955;19:251",
  "Haldane JBS, Ann Hum Genet 1956;20:309",
  "Anscombe FJ, Biometrika 1956;43:461",
  "Cornfield J, Proc Third Berkeley Symp 1956;4:135",
  "Lancaster HO, J Am Stat Assoc 1961;56:223",
  "Fay MP, Biostatistics 2010;11:373",
  "Fagerland MW, Lydersen S, Laake P, Stat Methods Med Res 2015;24:224, doi:10.1177/0962280211415469")

program("odds-ratio",
  fields = two_by_two_sources,
  cite = two_by_two_citations,
  answer = function(input) odds_ratio(input$exposed, input$reference, input$confidence))

program("odds-ratio-levels",
  fields = list(
    levels = unique(unlist(two_by_two_sources)),
    overall = c("stats::chisq.test", "stats::glm")),
  cite = two_by_two_citations,
  answer = function(input) {
    names <- column(input$levels, "name")
    reference <- input$levels[[match(input$reference, names)]]
    levels <- lapply(input$levels[names != input$reference], function(level) {
      c(name = level$name, odds_ratio(level, reference, input$confidence))
    })
    x <- column(input$levels, "events")
    n <- column(input$levels, "of")
    pearson <- quietly(chisq.test(cbind(x, n - x)[n > 0, ], correct = FALSE))
    # With one parameter, the deviance of the grouped binomial model is the likelihood-ratio statistic of the table.
    fit <- glm(cbind(x, n - x) ~ 1, family = binomial, control = glm.control(epsilon = 1e-14, maxit = 100))
    list(
      levels = levels,
      overall = list(
        df = unname(pearson$parameter),
        pearsonChi2 = unname(pearson$statistic),
        pearsonPValue = pearson$p.value,
        lrChi2 = fit$deviance,
        lrPValue = chi2_tail(fit$deviance, sum(n > 0) - 1),
        minExpected = min(pearson$expected)))
  })

drawn_from("or-multi-esoph-alcohol", "datasets::esoph", function(input) {
  cases <- tapply(esoph$ncases, esoph$alcgp, sum)
  controls <- tapply(esoph$ncontrols, esoph$alcgp, sum)
  all(column(input$levels, "name") == names(cases)) && all(column(input$levels, "events") == cases) &&
    all(column(input$levels, "of") == cases + controls)
})
