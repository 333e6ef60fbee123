# Section 10: pooling across centres.

program("pooled-effects",
  fields = list(
    k = plain, q = "metafor::rma", qDf = "metafor::rma", qPValue = "metafor::rma", i2FromQ = "metafor::rma",
    i2Reml = "metafor::rma", dl = c("metafor::rma", "metafor::predict.rma"),
    reml = c("metafor::rma", "metafor::predict.rma"), remlAsProportion = "stats::plogis"),
  cite = c(
    "DerSimonian R, Laird N, Control Clin Trials 1986;7:177",
    "Hartung J, Knapp G, Stat Med 2001;20:3875",
    "Viechtbauer W, J Stat Softw 2010;36(3), doi:10.18637/jss.v036.i03"),
  answer = function(input) {
    level <- 100 * input$confidence
    if (is.null(input$centres)) {
      effect <- list(yi = as.numeric(unlist(input$effects$y)), vi = as.numeric(unlist(input$effects$v)))
    } else {
      effect <- metafor::escalc("PLO", xi = column(input$centres, "events"), ni = column(input$centres, "of"),
        add = 1 / 2, to = "only0")
      effect <- list(yi = as.numeric(effect$yi), vi = as.numeric(effect$vi))
    }
    fit <- function(method, test) {
      metafor::rma(effect$yi, effect$vi, method = method, test = test, level = level,
        control = list(threshold = 1e-13, maxiter = 1000))
    }
    both <- function(limits) interval(c(limits$ci.lb, limits$ci.ub))
    described <- function(method) {
      wald <- fit(method, "z")
      knapp <- fit(method, "knha")
      truncated <- fit(method, "adhoc")
      expected <- predict(knapp)
      list(
        tau2 = wald$tau2,
        estimate = as.numeric(wald$beta),
        standardError = wald$se,
        wald = both(wald),
        hartungKnappStandardError = knapp$se,
        hartungKnapp = both(knapp),
        hartungKnappTruncated = both(truncated),
        predictionInterval = interval(c(expected$pi.lb, expected$pi.ub)))
    }
    dl <- fit("DL", "z")
    # metafor finds tau^2 by Fisher scoring; here as the root of the restricted score, which it must make zero.
    score <- function(tau2) {
      w <- 1 / (effect$vi + tau2)
      mu <- sum(w * effect$yi) / sum(w)
      sum(w^2 * (effect$yi - mu)^2) - sum(w) + sum(w^2) / sum(w)
    }
    reml <- described("REML")
    compare("reml.tau2", reml$tau2, root(score, 0, 100), plain)
    list(
      k = length(effect$yi),
      q = dl$QE,
      qDf = length(effect$yi) - 1,
      qPValue = dl$QEp,
      i2FromQ = dl$I2,
      i2Reml = fit("REML", "z")$I2,
      dl = described("DL"),
      reml = reml,
      remlAsProportion = list(
        estimate = plogis(reml$estimate),
        hartungKnapp = lapply(reml$hartungKnapp, plogis),
        predictionInterval = lapply(reml$predictionInterval, plogis)))
  })

program("pooled-proportion",
  fields = list(
    mu = c(plain, "stats::nlm"), standardError = "stats::optimHess", tau2 = "stats::nlm", tau = "stats::nlm",
    waldAsProportion = "stats::plogis", predictionAsProportion = c("stats::plogis", "stats::qt"),
    medianOddsRatio = plain, lrHeterogeneity = c("stats::dbinom", "stats::nlm"), lrHalfPValue = "stats::pchisq"),
  cite = "Stijnen T, Hamza TH, Ozdemir P, Stat Med 2010;29:3046",
  answer = function(input) {
    x <- column(input$centres, "events")
    n <- column(input$centres, "of")
    k <- length(x)
    crude <- sum(x) / sum(n)
    fit <- random_intercept(matrix(1, k), x, n, seq_len(k), qlogis(crude))
    lr <- 2 * (fit$log_likelihood - sum(dbinom(x, n, crude, log = TRUE) - lchoose(n, x)))
    z <- normal_quantile(input$confidence)
    t <- qt((1 - input$confidence) / 2, k - 1, lower.tail = FALSE)
    around <- function(half) interval(plogis(fit$beta + c(-1, 1) * half))
    # metafor::rma.glmm fits this model through lme4, which is not among the packages used here.
    list(
      mu = fit$beta,
      standardError = fit$se,
      tau2 = fit$sd^2,
      tau = fit$sd,
      waldAsProportion = c(list(estimate = plogis(fit$beta)), around(z * fit$se)),
      predictionAsProportion = around(t * sqrt(fit$se^2 + fit$sd^2)),
      medianOddsRatio = median_odds_ratio(fit$sd),
      lrHeterogeneity = lr,
      lrHalfPValue = chi2_tail(lr, 1) / 2)
  })

drawn_from("pool-bcg-log-rr", "metadat::dat.bcg", function(input) {
  trials <- metafor::escalc("RR", ai = tpos, bi = tneg, ci = cpos, di = cneg, data = metadat::dat.bcg)
  max(abs(trials$yi - unlist(input$effects$y)), abs(trials$vi - unlist(input$effects$v))) < 1e-12
})

case_series <- function(input) {
  trials <- metadat::dat.pritz1997
  all(column(input$centres, "events") == trials$xi) && all(column(input$centres, "of") == trials$ni)
}

drawn_from("pool-pritz-logit", "metadat::dat.pritz1997", case_series)
drawn_from("glmm-pritz", "metadat::dat.pritz1997", case_series)
