# Section 13: data quality.

program("missingness",
  fields = list(
    fields = "stats::prop.test", completeCases = plain, completeProportion = plain,
    completeWilson = "stats::prop.test"),
  cite = c(
    "Little RJA, Rubin DB, Statistical Analysis with Missing Data, Wiley 2019",
    "Wilson EB, J Am Stat Assoc 1927;22:209, doi:10.1080/01621459.1927.10502953"),
  answer = function(input) {
    n <- input$records
    list(
      fields = lapply(input$missing, function(field) list(
        name = field$name, missing = field$missing, proportion = share(field$missing, n),
        wilson = wilson(field$missing, n, input$confidence))),
      completeCases = input$completeCases,
      completeProportion = share(input$completeCases, n),
      completeWilson = wilson(input$completeCases, n, input$confidence))
  })

program("missing-outcome-bounds",
  fields = list(
    completeCase = "stats::prop.test", lowestPossible = plain, highestPossible = plain, proportionMissing = plain,
    envelope = "stats::prop.test"),
  cite = "Manski CF, Partial Identification of Probability Distributions, Springer 2003",
  answer = function(input) {
    e <- input$events
    n <- input$known + input$missingOutcome
    high <- e + input$missingOutcome
    list(
      completeCase = list(estimate = e / input$known, wilson = wilson(e, input$known, input$confidence)),
      lowestPossible = e / n,
      highestPossible = high / n,
      proportionMissing = input$missingOutcome / n,
      envelope = interval(c(
        wilson(e, n, input$confidence)$lower, wilson(high, n, input$confidence)$upper)))
  })

program("discordance",
  fields = list(rows = plain, usableEvents = plain, usableDenominator = plain),
  cite = "common practice, no single source",
  answer = function(input) {
    x <- column(input$rows, "numerator")
    n <- column(input$rows, "of")
    status <- mapply(function(x, n) {
      if (is.na(x) && is.na(n)) "both missing" else
        if (is.na(n)) "denominator missing" else
          if (is.na(x)) "numerator missing" else
            if (x < 0 || n < 0) "negative" else
              if (x > n) "numerator exceeds denominator" else
                if (n == 0) "no exposure" else "ok"
    }, x, n)
    usable <- status == "ok"
    list(
      rows = Map(function(row, status) list(name = row$name, status = status, usable = status == "ok"),
        input$rows, status),
      usableEvents = sum(x[usable]),
      usableDenominator = sum(n[usable]))
  })

program("silence",
  fields = list(expected = plain, probabilityOfNone = "stats::dbinom"),
  cite = "product of independent chances, no single source",
  answer = function(input) {
    n <- unlist(input$uses)
    x <- column(input$reference, "events")
    m <- column(input$reference, "of")
    known <- m > 0 & n > 0
    list(
      expected = sum(n[known] * x[known] / m[known]),
      probabilityOfNone = prod(dbinom(0, n[known], x[known] / m[known])))
  })

program("quartiles",
  fields = list(values = plain, lower = "stats::quantile", median = "stats::quantile", upper = "stats::quantile"),
  cite = "Hyndman RJ, Fan Y, Am Stat 1996;50:361, doi:10.1080/00031305.1996.10473566",
  answer = function(input) {
    values <- rep(column(input$counts, "value"), column(input$counts, "count"))
    cut <- unname(quantile(values, c(0.25, 0.5, 0.75), type = 7))
    list(values = length(values), lower = cut[1], median = cut[2], upper = cut[3])
  })

drawn_from("missing-airquality", "datasets::airquality", function(input) {
  missing <- colSums(is.na(airquality))
  input$records == nrow(airquality) && input$completeCases == sum(complete.cases(airquality)) &&
    all(column(input$missing, "missing") == missing[column(input$missing, "name")])
})

drawn_from("quartiles-ozone", "datasets::airquality", function(input) {
  ozone <- table(airquality$Ozone)
  length(input$counts) == length(ozone) && all(column(input$counts, "value") == as.numeric(names(ozone))) &&
    all(column(input$counts, "count") == as.numeric(ozone))
})
