# Section 2: rates and the ratio of two rates.

byar <- function(x, level) {
  z <- normal_quantile(level)
  lower <- if (x == 0) 0 else x * max(0, 1 - 1 / (9 * x) - z / (3 * sqrt(x)))^3
  y <- x + 1
  c(lower, y * (1 - 1 / (9 * y) + z / (3 * sqrt(y)))^3)
}

program("rate",
  fields = list(rate = "stats::poisson.test", garwood = "stats::poisson.test", byar = plain),
  cite = c(
    "Garwood F, Biometrika 1936;28:437",
    "Breslow NE, Day NE, Statistical Methods in Cancer Research vol II, IARC 1987 (Byar's limits)"),
  answer = function(input) {
    exact <- poisson.test(input$events, input$exposure, conf.level = input$confidence)
    limits <- byar(input$events, input$confidence)
    per <- input$per / input$exposure
    compare("garwood", interval(exact$conf.int), epitools::pois.exact(
      input$events, input$exposure, input$confidence)[c("lower", "upper")], "epitools::pois.exact", 1e-4,
      "its roots are searched for with uniroot")
    list(
      rate = unname(exact$estimate) * input$per,
      garwood = interval(exact$conf.int * input$per),
      byar = interval(limits * per))
  })

program("rate-ratio",
  fields = list(
    ratio = "stats::poisson.test", exact = "stats::poisson.test", midP = plain,
    minlikePValue = "stats::poisson.test", centralPValue = "stats::poisson.test", midPValue = "stats::poisson.test",
    waldLog = "epitools::rateratio.wald"),
  cite = c(
    "Przyborowski J, Wilenski H, Biometrika 1940;31:313",
    "Ulm K, Am J Epidemiol 1990;131:373",
    "Rothman KJ, Boice JD, Epidemiologic Analysis with a Programmable Calculator, 1979"),
  answer = function(input) {
    x <- c(input$a$events, input$b$events)
    t <- c(input$a$exposure, input$b$exposure)
    level <- input$confidence
    stopifnot(all(x > 0))
    n <- sum(x)
    test <- poisson.test(x, t, conf.level = level)
    upper <- poisson.test(x, t, alternative = "greater")$p.value
    lower <- poisson.test(x, t, alternative = "less")$p.value
    at <- dbinom(x[1], n, t[1] / sum(t))

    # Half the weight of the observed count in each tail; the share of events in the first group, on the logit scale.
    tail <- (1 - level) / 2
    above <- function(eta) {
      pbinom(x[1], n, plogis(eta), lower.tail = FALSE) + dbinom(x[1], n, plogis(eta)) / 2
    }
    below <- function(eta) pbinom(x[1] - 1, n, plogis(eta)) + dbinom(x[1], n, plogis(eta)) / 2
    start <- qlogis(x[1] / n)
    share <- c(
      root_outward(function(eta) log(above(eta)) - log(tail), start, -0.1),
      root_outward(function(eta) log(below(eta)) - log(tail), start, 0.1))
    mid <- exp(share) * t[2] / t[1]
    mid_p <- min(1, 2 * min(upper, lower) - at)

    table <- matrix(c(x[2], x[1], t[2], t[1]), 2)
    wald <- epitools::rateratio.wald(table, conf.level = level)$measure[2, ]
    theirs <- epitools::rateratio.midp(table, conf.level = level)
    compare("midP", mid, theirs$measure[2, c("lower", "upper")], "epitools::rateratio.midp", 1e-3,
      "uniroot at its default tolerance")
    compare("midPValue", mid_p, theirs$p.value[2, "midp.exact"], "epitools::rateratio.midp")
    list(
      ratio = unname(test$estimate),
      exact = interval(test$conf.int),
      midP = interval(mid),
      minlikePValue = test$p.value,
      centralPValue = min(1, 2 * min(upper, lower)),
      midPValue = mid_p,
      waldLog = interval(wald[c("lower", "upper")]))
  })
