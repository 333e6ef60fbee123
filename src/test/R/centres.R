# Section 9: comparing centres.

# Funnel limits on the scale of events: the exact binomial quantile, moved down by the share of its own probability that
# exceeds what was asked for.
funnel_limit <- function(p, n, target) {
  r <- qbinom(p, n, target)
  alpha <- (pbinom(r, n, target) - p) / dbinom(r, n, target)
  min(1, max(0, (r - alpha) / n))
}

program("funnel",
  fields = list(
    target = plain, centres = c("stats::qbinom", "stats::pbinom", "stats::dbinom", "stats::binom.test", plain)),
  cite = c(
    "Spiegelhalter DJ, Stat Med 2005;24:1185, doi:10.1002/sim.1970",
    "Manktelow BN, Seaton SE, PLoS One 2012, doi:10.1371/journal.pone.0045723"),
  answer = function(input) {
    x <- column(input$centres, "events")
    n <- column(input$centres, "of")
    target <- or_else(input$target, sum(x) / sum(n))
    word <- function(above998, above95, below95, below998) {
      if (above998) "above 99.8%" else if (above95) "above 95%" else if (below998) "below 99.8%" else
        if (below95) "below 95%" else "within"
    }
    list(target = target, centres = Map(function(centre, x, n) {
      if (n == 0) {
        return(list(
          name = centre$name, estimate = NA, limits = list(at95 = no_interval, at998 = no_interval), flag = "no data",
          positionByLine = "no data", upperPValue = NA, lowerPValue = NA, midPValue = NA))
      }
      upper <- binom.test(x, n, target, alternative = "greater")$p.value
      lower <- binom.test(x, n, target, alternative = "less")$p.value
      at <- function(tail) c(funnel_limit(tail, n, target), funnel_limit(1 - tail, n, target))
      at95 <- at(0.025)
      at998 <- at(0.001)
      p <- x / n
      list(
        name = centre$name,
        estimate = p,
        limits = list(at95 = interval(at95), at998 = interval(at998)),
        flag = word(upper <= 0.001, upper <= 0.025, lower <= 0.025, lower <= 0.001),
        positionByLine = word(p > at998[2], p > at95[2], p < at95[1], p < at998[1]),
        upperPValue = upper,
        lowerPValue = lower,
        midPValue = min(1, 2 * min(upper, lower) - dbinom(x, n, target)))
    }, input$centres, x, n))
  })

program("funnel-overdispersion",
  fields = list(
    target = plain, phiUnwinsorised = "stats::chisq.test", phi = plain, overdispersed = plain, tau2 = plain,
    zNaive = plain, zMultiplicative = plain, zAdditive = plain),
  cite = "Spiegelhalter DJ, Stat Med 2005;24:1185, doi:10.1002/sim.1970",
  answer = function(input) {
    x <- column(input$centres, "events")
    n <- column(input$centres, "of")
    target <- or_else(input$target, sum(x) / sum(n))
    size <- length(x)
    s2 <- target * (1 - target) / n
    z <- (x / n - target) / sqrt(s2)
    cut <- floor(input$winsor * size)
    ordered <- sort(z)
    winsorised <- pmin(pmax(z, ordered[cut + 1]), ordered[size - cut])
    phi <- mean(winsorised^2)
    w <- 1 / s2
    tau2 <- max(0, (size * phi - (size - 1)) / (sum(w) - sum(w^2) / sum(w)))
    # Around the pooled rate the sum of z^2 is Pearson's statistic of the centres' table.
    pearson <- quietly(chisq.test(cbind(x, n - x), correct = FALSE))
    stopifnot(is.null(input$target))
    list(
      target = target,
      phiUnwinsorised = unname(pearson$statistic) / size,
      phi = phi,
      overdispersed = phi > 1 + 2 * sqrt(2 / size),
      tau2 = tau2,
      zNaive = z,
      zMultiplicative = z / sqrt(max(1, phi)),
      zAdditive = (x / n - target) / sqrt(s2 + tau2))
  })

program("indirect-standardisation",
  fields = list(
    observed = "epitools::ageadjust.indirect", expected = "epitools::ageadjust.indirect",
    oOverE = "epitools::ageadjust.indirect", exact = "stats::poisson.test", byar = plain,
    midPValue = "stats::poisson.test", indirectlyStandardisedRate = "epitools::ageadjust.indirect"),
  cite = c(
    "Breslow NE, Day NE, Statistical Methods in Cancer Research vol II, IARC 1987",
    "Garwood F, Biometrika 1936;28:437"),
  answer = function(input) {
    level <- input$confidence
    adjusted <- epitools::ageadjust.indirect(
      column(input$centre, "events"), column(input$centre, "of"),
      column(input$reference, "events"), column(input$reference, "of"), conf.level = level)
    observed <- adjusted$sir[["observed"]]
    expected <- adjusted$sir[["exp"]]
    upper <- poisson.test(observed, expected, alternative = "greater")$p.value
    lower <- poisson.test(observed, expected, alternative = "less")$p.value
    list(
      observed = observed,
      expected = expected,
      oOverE = adjusted$sir[["sir"]],
      exact = interval(poisson.test(observed, expected, conf.level = level)$conf.int),
      byar = interval(byar(observed, level) / expected),
      midPValue = min(1, 2 * min(upper, lower) - dpois(observed, expected)),
      indirectlyStandardisedRate = adjusted$rate[["adj.rate"]])
  })

program("direct-standardisation",
  fields = list(
    rate = "epitools::ageadjust.direct", standardError = plain, fayFeuer = "epitools::ageadjust.direct",
    dobson = c("stats::poisson.test", plain), strataWithoutData = plain),
  cite = c("Fay MP, Feuer EJ, Stat Med 1997;16:791", "Dobson AJ et al., Stat Med 1991;10:457"),
  answer = function(input) {
    e <- column(input$strata, "events")
    n <- column(input$strata, "of")
    weight <- column(input$strata, "weight")
    stopifnot(all(n > 0), sum(e) > 0)
    adjusted <- epitools::ageadjust.direct(e, n, stdpop = weight, conf.level = input$confidence)
    rate <- adjusted[["adj.rate"]]
    w <- weight / sum(weight)
    variance <- sum((w / n)^2 * e)
    garwood <- poisson.test(sum(e), conf.level = input$confidence)$conf.int
    list(
      rate = rate,
      standardError = sqrt(variance),
      fayFeuer = interval(adjusted[c("lci", "uci")]),
      dobson = interval(rate + sqrt(variance / sum(e)) * (garwood - sum(e))),
      strataWithoutData = 0)
  })

program("shrinkage",
  fields = list(
    boundary = "stats::optim", mu = "stats::optim", rho = "stats::optim", alpha = "stats::optim",
    beta = "stats::optim", lrOverdispersion = "stats::optim", lrHalfPValue = "stats::pchisq", taroneZ = plain,
    taroneUpperPValue = "stats::pnorm", centres = c("stats::optim", "stats::qbeta")),
  cite = c("Griffiths DA, Biometrics 1973;29:637", "Tarone RE, Biometrika 1979;66:585"),
  answer = function(input) {
    x <- column(input$centres, "events")
    n <- column(input$centres, "of")
    # The beta-binomial by beta functions and its own two parameters, the binomial by R's density.
    target <- function(par) {
      alpha <- exp(par[1])
      beta <- exp(par[2])
      -sum(lchoose(n, x) + lbeta(x + alpha, n - x + beta) - lbeta(alpha, beta))
    }
    crude <- sum(x) / sum(n)
    fits <- lapply(c(1e-3, 1e-2, 1e-1), function(rho) {
      start <- log(c(crude, 1 - crude) * (1 - rho) / rho)
      first <- optim(start, target, method = "Nelder-Mead", control = list(reltol = 1e-14, maxit = 5000))
      optim(first$par, target, method = "BFGS", control = list(reltol = 1e-16, maxit = 500))
    })
    fit <- fits[[which.min(sapply(fits, `[[`, "value"))]]
    alpha <- exp(fit$par[1])
    beta <- exp(fit$par[2])
    lr <- 2 * (-fit$value - sum(dbinom(x, n, crude, log = TRUE)))
    stopifnot(lr > 1e-6)
    s <- sum((x - n * crude)^2) / (crude * (1 - crude))
    z <- (s - sum(n)) / sqrt(2 * sum(n * (n - 1)))
    tail <- (1 - input$confidence) / 2
    list(
      boundary = FALSE,
      mu = alpha / (alpha + beta),
      rho = 1 / (alpha + beta + 1),
      alpha = alpha,
      beta = beta,
      lrOverdispersion = lr,
      lrHalfPValue = chi2_tail(lr, 1) / 2,
      taroneZ = z,
      taroneUpperPValue = pnorm(z, lower.tail = FALSE),
      centres = Map(function(centre, x, n) {
        list(
          name = centre$name,
          crude = share(x, n),
          shrunken = (x + alpha) / (n + alpha + beta),
          lower = qbeta(tail, x + alpha, n - x + beta),
          upper = qbeta(tail, x + alpha, n - x + beta, lower.tail = FALSE),
          weightOnOwnData = n / (n + alpha + beta))
      }, input$centres, x, n))
  })

catheter_infections <- function(input) {
  trials <- metadat::dat.nielweise2007
  all(column(input$centres, "events") == trials$ci) && all(column(input$centres, "of") == trials$n2i)
}

drawn_from("funnel-crbsi-control", "metadat::dat.nielweise2007", catheter_infections)
drawn_from("od-crbsi-control", "metadat::dat.nielweise2007", catheter_infections)
drawn_from("bb-crbsi-control", "metadat::dat.nielweise2007", catheter_infections)
