# Section 6: logistic regression on grouped counts.

# The rows with trials, as a data frame whose columns are the terms, with the reference level of each factor first.
grouped <- function(input, extra = character()) {
  rows <- Filter(function(row) row$of > 0, input$patterns)
  frame <- data.frame(events = column(rows, "events"), trials = column(rows, "of"))
  for (term in input$terms) {
    values <- column(rows, term$name)
    if (term$type == "factor") {
      levels <- unlist(term$levels)
      values <- factor(values, c(term$reference, setdiff(levels, term$reference)))
      stopifnot(!anyNA(values), table(values) > 0)
    }
    frame[[term$name]] <- values
  }
  for (name in extra) frame[[name]] <- column(rows, name)
  frame
}

term_names <- function(input) column(input$terms, "name")

model_formula <- function(input, without = character()) {
  kept <- setdiff(term_names(input), without)
  reformulate(if (length(kept) == 0) "1" else kept, "cbind(events, trials - events)")
}

# Column names as the reference file spells them: name[level].
column_names <- function(input) {
  unlist(c("(Intercept)", lapply(input$terms, function(term) {
    if (term$type == "numeric") return(term$name)
    paste0(term$name, "[", setdiff(unlist(term$levels), term$reference), "]")
  })))
}

design <- function(input, frame) {
  x <- model.matrix(model_formula(input), frame)
  colnames(x) <- column_names(input)
  x
}

fit_ml <- function(formula, frame) {
  quietly(glm(formula, binomial, frame, control = glm.control(epsilon = 1e-15, maxit = 100)))
}

# Without the binomial coefficients.
log_likelihood <- function(eta, y, n) {
  sum(y * plogis(eta, log.p = TRUE) + (n - y) * plogis(-eta, log.p = TRUE))
}

# The cone of directions in which the likelihood never falls, cut off at |beta| <= 1, explored by linear programs.
separation <- function(x, y, n) {
  scale <- apply(abs(x), 2, max)
  x <- sweep(x, 2, scale, "/")
  p <- ncol(x)
  toward <- x * ifelse(y == n, 1, -1)
  one_sided <- y == 0 | y == n
  mixed <- x[!one_sided, , drop = FALSE]
  # Variables: the positive and the negative part of beta, then a margin t that only the last program uses.
  rows <- rbind(
    cbind(-toward[one_sided, , drop = FALSE], toward[one_sided, , drop = FALSE]),
    cbind(mixed, -mixed), cbind(-mixed, mixed),
    diag(2 * p))
  b <- c(rep(0, sum(one_sided) + 2 * nrow(mixed)), rep(1, 2 * p))
  zero <- 1e-7
  objective <- colSums(toward[one_sided, , drop = FALSE])
  gain <- maximise_linear(c(objective, -objective), rows, b)
  kind <- "none"
  if (gain > zero) {
    kind <- "quasi-complete"
    if (nrow(mixed) == 0) {
      margin <- cbind(rows, c(rep(1, sum(one_sided)), rep(0, 2 * p)))
      if (maximise_linear(c(rep(0, 2 * p), 1), margin, b) > zero) kind <- "complete"
    }
  }
  direction <- sapply(seq_len(p), function(j) {
    unit <- as.numeric(seq_len(p) == j)
    up <- maximise_linear(c(unit, -unit), rows, b) > zero
    down <- maximise_linear(c(-unit, unit), rows, b) > zero
    if (up && down) "undetermined" else if (up) "+Inf" else if (down) "-Inf" else "finite"
  })
  list(separation = kind, coefficients = setNames(as.list(direction), colnames(x)))
}

program("logistic-separation",
  fields = list(separation = plain, coefficients = plain),
  cite = c(
    "Albert A, Anderson JA, Biometrika 1984;71:1",
    "Konis K, Linear Programming Algorithms for Detecting Separated Data, DPhil thesis, Oxford 2007"),
  answer = function(input) {
    frame <- grouped(input)
    found <- separation(design(input, frame), frame$events, frame$trials)
    # Where nothing is separated, maximum likelihood settles: a hundred more steps change nothing. Where a coefficient
    # is infinite, every step carries it on by about the same amount, and with it only the separated ones.
    estimate <- function(steps) {
      coef(quietly(glm(model_formula(input), binomial, frame, control = glm.control(epsilon = 1e-300, maxit = steps))))
    }
    moving <- abs(estimate(20) - estimate(15)) > 1
    compare("coefficients", unname(unlist(found$coefficients) != "finite"), unname(moving), "stats::glm", 0,
      "whether the estimate still runs off after fifteen steps")
    found
  })

program("logistic",
  fields = list(
    separation = plain, events = plain, of = plain, eventsPerParameter = plain, logLikelihood = "stats::glm",
    nullLogLikelihood = "stats::glm", lrChi2 = "stats::glm", lrDf = "stats::glm", lrPValue = "stats::pchisq",
    residualDeviance = "stats::glm", residualDf = "stats::glm", coefficients = "stats::glm", terms = "stats::drop1"),
  cite = c(
    "Cox DR, J R Stat Soc B 1958;20:215",
    "Peduzzi P et al., J Clin Epidemiol 1996;49:1373"),
  answer = function(input) {
    frame <- grouped(input)
    y <- frame$events
    n <- frame$trials
    x <- design(input, frame)
    fit <- fit_ml(model_formula(input), frame)
    null <- fit_ml(model_formula(input, term_names(input)), frame)
    estimate <- unname(coef(fit))
    se <- unname(sqrt(diag(vcov(fit))))
    z <- normal_quantile(input$confidence)
    full <- log_likelihood(x %*% estimate, y, n)
    empty <- log_likelihood(rep(coef(null), length(y)), y, n)
    chi2 <- null$deviance - fit$deviance
    df <- null$df.residual - fit$df.residual
    dropped <- quietly(drop1(fit, test = "LRT"))[term_names(input), ]
    compare("logLikelihood", full, as.numeric(logLik(fit)) - sum(lchoose(n, y)), "stats::logLik")
    compare("lrChi2", chi2, 2 * (full - empty), plain)
    compare("lrPValue", chi2_tail(chi2, df), anova(null, fit, test = "LRT")[2, "Pr(>Chi)"], "stats::anova")
    list(
      separation = separation(x, y, n)$separation,
      events = sum(y),
      of = sum(n),
      eventsPerParameter = min(sum(y), sum(n - y)) / (ncol(x) - 1),
      logLikelihood = full,
      nullLogLikelihood = empty,
      lrChi2 = chi2,
      lrDf = df,
      lrPValue = chi2_tail(chi2, df),
      residualDeviance = fit$deviance,
      residualDf = fit$df.residual,
      coefficients = setNames(lapply(seq_along(estimate), function(j) list(
        estimate = estimate[j],
        standardError = se[j],
        oddsRatio = exp(estimate[j]),
        lower = exp(estimate[j] - z * se[j]),
        upper = exp(estimate[j] + z * se[j]),
        waldPValue = summary(fit)$coefficients[j, 4])), colnames(x)),
      terms = lapply(term_names(input), function(name) list(
        name = name, df = dropped[name, "Df"], lrChi2 = dropped[name, "LRT"], pValue = dropped[name, "Pr(>Chi)"])))
  })

# log-likelihood + half the log determinant of the Fisher information, and its gradient.
penalised <- function(x, y, n) {
  information <- function(eta) n * plogis(eta) * plogis(-eta)
  list(
    value = function(beta) {
      eta <- drop(x %*% beta)
      half <- as.numeric(determinant(crossprod(x * sqrt(information(eta))))$modulus) / 2
      log_likelihood(eta, y, n) + half
    },
    gradient = function(beta) {
      eta <- drop(x %*% beta)
      mu <- plogis(eta)
      leverage <- rowSums(qr.Q(qr(x * sqrt(information(eta))))^2)
      drop(crossprod(x, y - n * mu + leverage * (0.5 - mu)))
    })
}

# The penalised maximum with the coefficients named by `fixed` held at `at`; the penalty keeps the full matrix.
penalised_maximum <- function(target, start, fixed = integer(), at = numeric()) {
  start[fixed] <- at
  free <- setdiff(seq_along(start), fixed)
  if (length(free) == 0) return(list(value = target$value(start), beta = start))
  with_free <- function(values) replace(start, free, values)
  best <- start[free]
  for (round in 1:3) {
    found <- optim(best, function(v) -target$value(with_free(v)), function(v) -target$gradient(with_free(v))[free],
      method = "BFGS", control = list(reltol = 1e-16, maxit = 2000))
    best <- found$par
  }
  list(value = -found$value, beta = with_free(best))
}

program("logistic-firth",
  fields = list(
    separationOfMl = plain, events = plain, of = plain, penalisedLogLikelihood = "stats::optim",
    coefficients = c("brglm2::brglm_fit", "stats::optim", "stats::uniroot"), overallPlr = "stats::optim"),
  cite = c(
    "Firth D, Biometrika 1993;80:27",
    "Heinze G, Schemper M, Stat Med 2002;21:2409, doi:10.1002/sim.1047",
    "Kosmidis I, Firth D, Biometrika 2021;108:71, doi:10.1093/biomet/asaa052"),
  answer = function(input) {
    frame <- grouped(input)
    y <- frame$events
    n <- frame$trials
    x <- design(input, frame)
    p <- ncol(x)
    fit <- quietly(glm(model_formula(input), binomial, frame, method = brglm2::brglm_fit, type = "AS_mean",
      epsilon = 1e-12, maxit = 10000))
    estimate <- unname(coef(fit))
    se <- unname(sqrt(diag(vcov(fit))))
    target <- penalised(x, y, n)
    best <- penalised_maximum(target, estimate)
    compare("coefficients.estimate", estimate, best$beta, "stats::optim", 1e-5, "BFGS on a flat summit")
    stopifnot(max(abs(target$gradient(estimate))) < 1e-6)
    top <- target$value(estimate)
    crit <- qchisq(input$confidence, 1)
    profile <- function(j, value) 2 * (top - penalised_maximum(target, estimate, j, value)$value)
    limit <- function(j, side) root_outward_loosely(function(value) profile(j, value) - crit, estimate[j], side * se[j])
    coefficients <- lapply(seq_len(p), function(j) {
      limits <- c(limit(j, -1), limit(j, 1))
      chi2 <- profile(j, 0)
      list(
        estimate = estimate[j],
        standardError = se[j],
        oddsRatio = exp(estimate[j]),
        profile = interval(limits),
        profileOddsRatio = interval(exp(limits)),
        plrChi2 = chi2,
        plrPValue = chi2_tail(chi2, 1))
    })
    overall <- 2 * (top - penalised_maximum(target, estimate, 2:p, 0)$value)
    list(
      separationOfMl = separation(x, y, n)$separation,
      events = sum(y),
      of = sum(n),
      penalisedLogLikelihood = top,
      coefficients = setNames(coefficients, colnames(x)),
      overallPlr = list(chi2 = overall, df = p - 1, pValue = chi2_tail(overall, p - 1)))
  })

# As root_outward; the inner maximum is good to about 1e-10, so the root is not asked for more.
root_outward_loosely <- function(f, from, step) {
  to <- from + step
  while (f(to) < 0) {
    from <- to
    step <- 2 * step
    to <- from + step
  }
  uniroot(f, sort(c(from, to)), tol = 1e-10, maxiter = 500)$root
}

program("discrimination",
  fields = list(
    cStatistic = "stats::wilcox.test", delongStandardError = plain, ci = plain, brier = plain,
    observed = plain, expected = plain, oOverE = plain, calibrationInterceptAtSlope1 = "stats::glm",
    calibrationSlope = "stats::glm", calibrationInterceptFree = "stats::glm"),
  cite = c(
    "DeLong ER, DeLong DM, Clarke-Pearson DL, Biometrics 1988;44:837",
    "Cox DR, Biometrika 1958;45:562"),
  answer = function(input) {
    p <- column(input$rows, "predicted")
    y <- column(input$rows, "events")
    n <- column(input$rows, "of")
    with_event <- rep(p, y)
    without <- rep(p, n - y)
    m <- length(with_event)
    k <- length(without)
    c <- unname(quietly(wilcox.test(with_event, without))$statistic) / (m * k)
    wins <- outer(with_event, without, function(a, b) (a > b) + (a == b) / 2)
    # var() divides by one less than the number of people, as DeLong does.
    se <- sqrt(var(rowMeans(wins)) / m + var(colMeans(wins)) / k)
    z <- normal_quantile(input$confidence)
    people <- data.frame(event = rep(0:1, base::c(k, m)), predicted = base::c(without, with_event))
    theirs <- survival::concordance(event ~ predicted, people, influence = 1)
    compare("cStatistic", c, theirs$concordance, "survival::concordance")
    # Its influences are those of the jackknife, which divides by the number itself; rescaled within each group.
    influence <- tapply(theirs$dfbeta^2, people$event, sum)
    compare("delongStandardError", se, sqrt(influence[["1"]] * m / (m - 1) + influence[["0"]] * k / (k - 1)),
      "survival::concordance", 1e-3, "the infinitesimal jackknife, rescaled to DeLong's divisors")
    control <- glm.control(epsilon = 1e-15, maxit = 100)
    logit <- qlogis(pmin(pmax(p, 1e-12), 1 - 1e-12))
    offset_fit <- glm(cbind(y, n - y) ~ 1, binomial, offset = logit, control = control)
    slope_fit <- glm(cbind(y, n - y) ~ logit, binomial, control = control)
    list(
      cStatistic = c,
      delongStandardError = se,
      ci = interval(base::c(max(0, c - z * se), min(1, c + z * se))),
      brier = mean(base::c((1 - with_event)^2, without^2)),
      observed = sum(y),
      expected = sum(n * p),
      oOverE = sum(y) / sum(n * p),
      calibrationInterceptAtSlope1 = unname(coef(offset_fit)),
      calibrationSlope = unname(coef(slope_fit)[2]),
      calibrationInterceptFree = unname(coef(slope_fit)[1]))
  })

# The marginal likelihood of a logistic model with a normal intercept for each cluster, u standard normal. The integral
# is the trapezoid sum over ten curvature widths around the integrand's mode; for a smooth integrand that vanishes at
# both ends it converges faster than any power of the step, and it is a different rule from Gauss-Hermite's.
marginal_log_likelihood <- function(eta, sd, y, n, cluster) {
  sum(sapply(split(seq_along(y), cluster), function(rows) {
    log_integrand <- function(u) {
      log_likelihood(eta[rows] + sd * u, y[rows], n[rows]) + dnorm(u, log = TRUE)
    }
    mode <- 0
    for (step in 1:100) {
      mu <- plogis(eta[rows] + sd * mode)
      slope <- sd * sum(y[rows] - n[rows] * mu) - mode
      curvature <- sd^2 * sum(n[rows] * mu * (1 - mu)) + 1
      mode <- mode + slope / curvature
      if (abs(slope) < 1e-12) break
    }
    width <- 1 / sqrt(curvature)
    nodes <- mode + width * seq(-10, 10, length.out = 161)
    values <- sapply(nodes, log_integrand)
    top <- max(values)
    top + log(sum(exp(values - top)) * (nodes[2] - nodes[1]))
  }))
}

# Its maximum over the coefficients and log(sd); standard errors from the observed information.
random_intercept <- function(x, y, n, cluster, start) {
  p <- ncol(x)
  target <- function(par) -marginal_log_likelihood(drop(x %*% par[seq_len(p)]), exp(par[p + 1]), y, n, cluster)
  found <- nlm(target, c(start, log(0.5)), gradtol = 1e-9, steptol = 1e-10, iterlim = 500)
  stopifnot(found$code <= 3)
  information <- optimHess(found$estimate, target, control = list(ndeps = rep(1e-4, p + 1)))
  list(
    beta = found$estimate[seq_len(p)],
    se = sqrt(diag(solve(information)))[seq_len(p)],
    sd = exp(found$estimate[p + 1]),
    log_likelihood = -found$minimum)
}

median_odds_ratio <- function(sd) exp(sqrt(2) * sd * qnorm(0.75))

program("logistic-random-intercept",
  fields = list(
    coefficients = c(plain, "stats::nlm", "stats::optimHess"), sdRandomIntercept = "stats::nlm",
    varianceRandomIntercept = "stats::nlm", medianOddsRatio = plain, logLikelihood = "stats::nlm",
    lrVsNoRandom = c("stats::glm", "stats::nlm"), lrHalfPValue = "stats::pchisq"),
  cite = c(
    "Stijnen T, Hamza TH, Ozdemir P, Stat Med 2010;29:3046",
    "Merlo J et al., J Epidemiol Community Health 2006;60:290 (median odds ratio)"),
  answer = function(input) {
    frame <- grouped(input, input$cluster)
    x <- design(input, frame)
    plain_fit <- fit_ml(model_formula(input), frame)
    fit <- random_intercept(x, frame$events, frame$trials, frame[[input$cluster]], coef(plain_fit))
    without <- log_likelihood(x %*% coef(plain_fit), frame$events, frame$trials)
    lr <- 2 * (fit$log_likelihood - without)
    # Penalised quasi-likelihood answers the same question by a cruder approximation, which shrinks towards 0.
    quasi <- quietly(MASS::glmmPQL(model_formula(input), as.formula(paste("~ 1 |", input$cluster)), binomial, frame,
      verbose = FALSE))
    compare("coefficients.estimate", fit$beta, nlme::fixef(quasi), "MASS::glmmPQL", 0.1,
      "penalised quasi-likelihood is a first-order approximation")
    list(
      coefficients = setNames(
        Map(function(estimate, se) list(estimate = estimate, standardError = se), fit$beta, fit$se), colnames(x)),
      sdRandomIntercept = fit$sd,
      varianceRandomIntercept = fit$sd^2,
      medianOddsRatio = median_odds_ratio(fit$sd),
      logLikelihood = fit$log_likelihood,
      lrVsNoRandom = lr,
      lrHalfPValue = chi2_tail(lr, 1) / 2)
  })

# Counts of a data set for each combination of the terms, in any order.
same_patterns <- function(input, data, outcome) {
  key <- function(row) do.call(paste, c(lapply(term_names(input), function(name) row[[name]]), sep = "|"))
  events <- tapply(outcome, key(data), sum)
  trials <- tapply(outcome, key(data), length)
  theirs <- sort(paste(names(events), events, trials))
  mine <- sapply(input$patterns, key)
  y <- tapply(column(input$patterns, "events"), mine, sum)
  n <- tapply(column(input$patterns, "of"), mine, sum)
  identical(theirs, sort(paste(names(y), y, n)))
}

birth_weight <- function(input) {
  yes <- function(x) ifelse(x > 0, "yes", "no")
  data <- with(MASS::birthwt, data.frame(
    race = c("white", "black", "other")[race], smoke = yes(smoke), ptd = yes(ptl), ht = yes(ht), ui = yes(ui)))
  same_patterns(input, data, MASS::birthwt$low)
}

endometrial_cancer <- function(input) {
  data <- new.env()
  utils::data("endometrial", package = "brglm2", envir = data)
  same_patterns(input, data$endometrial, data$endometrial$HG)
}

drawn_from("ml-birthwt", "MASS::birthwt", birth_weight)
drawn_from("sep-birthwt-none", "MASS::birthwt", birth_weight)
drawn_from("firth-birthwt", "MASS::birthwt", birth_weight)
drawn_from("sep-endometrial", "brglm2::endometrial", endometrial_cancer)
drawn_from("firth-endometrial", "brglm2::endometrial", endometrial_cancer)
drawn_from("ml-infert", "datasets::infert", function(input) same_patterns(input, infert, infert$case))
