# Section 5: stratified 2x2 tables.

# The law of a sum of independent counts: convolution of the strata's weights at odds ratio 1.
convolved <- function(laws) {
  Reduce(function(first, second) {
    scaled <- function(law) exp(law$log_weight - max(law$log_weight))
    small <- min(first$support) + min(second$support)
    size <- length(first$support) + length(second$support) - 1
    weight <- numeric(size)
    w2 <- scaled(second)
    w1 <- scaled(first)
    for (i in seq_along(w1)) {
      at <- i - 1 + seq_along(w2)
      weight[at] <- weight[at] + w1[i] * w2
    }
    list(support = small + seq_len(size) - 1, log_weight = log(weight))
  }, laws)
}

program("stratified-odds-ratio",
  fields = list(
    informativeStrata = plain, droppedStrata = plain, oddsRatio = "stats::mantelhaen.test",
    rbg = "stats::mantelhaen.test", logStandardError = "metafor::rma.mh", cmh = "stats::mantelhaen.test",
    cmhContinuity = "stats::mantelhaen.test", breslowDay = plain, tarone = plain, exact = plain),
  cite = c(
    "Mantel N, Haenszel W, J Natl Cancer Inst 1959;22:719",
    "Robins J, Breslow N, Greenland S, Biometrics 1986;42:311",
    "Breslow NE, Day NE, Statistical Methods in Cancer Research vol I, IARC 1980",
    "Tarone RE, Biometrika 1985;72:91",
    "Mehta CR, Patel NR, Gray R, J Am Stat Assoc 1985;80:969"),
  answer = function(input) {
    level <- input$confidence
    name <- column(input$strata, "name")
    a <- sapply(input$strata, function(s) s$exposed$events)
    b <- sapply(input$strata, function(s) s$exposed$of) - a
    c <- sapply(input$strata, function(s) s$reference$events)
    d <- sapply(input$strata, function(s) s$reference$of) - c
    keep <- a + b > 0 & c + d > 0 & a + c > 0 & b + d > 0
    all_tables <- array(rbind(a, c, b, d), base::c(2, 2, length(a)))
    a <- a[keep]
    b <- b[keep]
    c <- c[keep]
    d <- d[keep]
    stopifnot(length(a) >= 2)

    # R is given all strata: those without information must change nothing.
    test <- mantelhaen.test(all_tables, correct = FALSE, conf.level = level)
    corrected <- mantelhaen.test(all_tables, correct = TRUE, conf.level = level)
    pooled <- metafor::rma.mh(ai = a, bi = b, ci = c, di = d, measure = "OR", level = 100 * level)
    ratio <- unname(test$estimate)

    # Breslow and Day's fitted counts by root-finding in each stratum; metafor solves the quadratic.
    n1 <- a + b
    n0 <- c + d
    m1 <- a + c
    fitted <- mapply(function(n1, n0, m1) {
      lower <- max(0, m1 - n0)
      upper <- min(n1, m1)
      root(function(t) t * (n0 - m1 + t) - ratio * (n1 - t) * (m1 - t), lower, upper)
    }, n1, n0, m1)
    variance <- 1 / (1 / fitted + 1 / (n1 - fitted) + 1 / (m1 - fitted) + 1 / (n0 - m1 + fitted))
    df <- length(a) - 1
    breslow_day <- sum((a - fitted)^2 / variance)
    tarone <- breslow_day - sum(a - fitted)^2 / sum(variance)
    compare("breslowDay", breslow_day, pooled$BD, "metafor::rma.mh")
    compare("tarone", tarone, pooled$TA, "metafor::rma.mh")
    compare("cmhContinuity", corrected$statistic, pooled$MH, "metafor::rma.mh")

    law <- convolved(Map(hypergeometric_law, a, b, c, d))
    own <- conditional_inference(law, sum(a), level)
    exact <- mantelhaen.test(all_tables, exact = TRUE, conf.level = level)
    compare("exact.minlikePValue", own$minlike, exact$p.value, "stats::mantelhaen.test")
    loose <- "mantelhaen.test searches with uniroot's default tolerance"
    compare("exact.conditionalMle", own$mle, exact$estimate, "stats::mantelhaen.test", 1e-3, loose)
    compare("exact.exact", own$exact, exact$conf.int, "stats::mantelhaen.test", 1e-2, loose)

    # Conditional logistic regression on the people themselves maximises the same likelihood. clogit sums over the
    # subsets of each stratum unscaled, so a stratum with more subsets than a double can count is beyond it.
    if (max(lchoose(n1 + n0, m1)) < 700) {
      people <- do.call(rbind, lapply(seq_along(a), function(k) {
        times <- base::c(a[k], b[k], c[k], d[k])
        data.frame(stratum = k, exposed = rep(base::c(1, 1, 0, 0), times), event = rep(base::c(1, 0, 1, 0), times))
      }))
      fit <- survival::clogit(event ~ exposed + strata(stratum), people, method = "exact",
        control = survival::coxph.control(eps = 1e-12, toler.chol = 1e-13, iter.max = 50))
      compare("exact.conditionalMle", own$mle, exp(coef(fit)), "survival::clogit")
    }

    statistic <- function(test) list(statistic = unname(test$statistic), pValue = test$p.value)
    list(
      informativeStrata = length(a),
      droppedStrata = as.list(name[!keep]),
      oddsRatio = ratio,
      rbg = interval(test$conf.int),
      logStandardError = pooled$se,
      cmh = statistic(test),
      cmhContinuity = statistic(corrected),
      breslowDay = list(statistic = breslow_day, df = df, pValue = chi2_tail(breslow_day, df)),
      tarone = list(statistic = tarone, df = df, pValue = chi2_tail(tarone, df)),
      exact = list(
        conditionalMle = own$mle,
        exact = interval(own$exact),
        midP = interval(own$midp),
        minlikePValue = own$minlike,
        centralPValue = own$central,
        midPValue = own$mid))
  })

drawn_from("mh-ucb-admissions", "datasets::UCBAdmissions", function(input) {
  all(mapply(function(stratum, department) {
    counts <- UCBAdmissions[, , department]
    stratum$exposed$events == counts["Admitted", "Male"] && stratum$exposed$of == sum(counts[, "Male"]) &&
      stratum$reference$events == counts["Admitted", "Female"] && stratum$reference$of == sum(counts[, "Female"])
  }, input$strata, column(input$strata, "name")))
})

drawn_from("mh-ille-et-vilaine", "datasets::esoph", function(input) {
  heavy <- esoph$alcgp %in% c("80-119", "120+")
  all(mapply(function(stratum, age) {
    counts <- function(rows) {
      rows <- rows & esoph$agegp == age
      c(sum(esoph$ncases[rows]), sum(esoph$ncases[rows]) + sum(esoph$ncontrols[rows]))
    }
    all(c(stratum$exposed$events, stratum$exposed$of) == counts(heavy)) &&
      all(c(stratum$reference$events, stratum$reference$of) == counts(!heavy))
  }, input$strata, column(input$strata, "name")))
})
