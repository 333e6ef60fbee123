# Section 8: trend over groups, control charts, CUSUM.

# The law of the sum of scores over all events, given how many events there are: group by group, a matrix over (events
# so far, score so far). Scores must be integers.
trend_law <- function(scores, sizes, total) {
  top <- max(scores) * total
  weight <- matrix(0, total + 1, top + 1)
  weight[1, 1] <- 1
  for (j in seq_along(scores)) {
    # Weights of the group's own count, scaled by the overall odds so that nothing over- or underflows.
    odds <- total / (sum(sizes) - total)
    own <- exp(lchoose(sizes[j], 0:total) + (0:total) * log(odds) - sizes[j] * log1p(odds))
    following <- matrix(0, total + 1, top + 1)
    for (e in 0:min(total, sizes[j])) {
      if (own[e + 1] == 0) next
      shift <- e * scores[j]
      rows <- seq_len(total + 1 - e)
      columns <- seq_len(max(0, top + 1 - shift))
      following[rows + e, columns + shift] <- following[rows + e, columns + shift] + own[e + 1] * weight[rows, columns]
    }
    weight <- following
  }
  weight[total + 1, ] / sum(weight[total + 1, ])
}

program("trend",
  fields = list(
    z = "stats::prop.trend.test", pValue = "stats::prop.trend.test", slope = "stats::lm", exactUpperPValue = plain,
    exactLowerPValue = plain, exactDoubledPValue = plain, midPValue = plain),
  cite = c(
    "Cochran WG, Biometrics 1954;10:417",
    "Armitage P, Biometrics 1955;11:375",
    "Graubard BI, Korn EL, Biometrics 1987;43:471"),
  answer = function(input) {
    s <- column(input$groups, "score")
    e <- column(input$groups, "events")
    n <- column(input$groups, "of")
    test <- prop.trend.test(e, n, s)
    slope <- unname(coef(lm(e / n ~ s, weights = n))[2])
    scale <- 1
    while (any(abs(s * scale - round(s * scale)) > 1e-9)) scale <- scale + 1
    scores <- round((s - min(s)) * scale)
    # The smaller of events and non-events gives the shorter law; the tails then change places.
    flipped <- sum(e) > sum(n - e)
    counts <- if (flipped) n - e else e
    law <- trend_law(scores, n, sum(counts))
    observed <- sum(scores * counts)
    at <- law[observed + 1]
    above <- sum(law[(observed + 1):length(law)])
    below <- sum(law[seq_len(observed + 1)])
    smaller <- min(above, below)
    list(
      z = sign(slope) * sqrt(unname(test$statistic)),
      pValue = test$p.value,
      slope = slope,
      exactUpperPValue = if (flipped) below else above,
      exactLowerPValue = if (flipped) above else below,
      exactDoubledPValue = min(1, 2 * smaller),
      midPValue = min(1, 2 * (smaller - at / 2)))
  })

control_chart <- function(events, size, alpha, quantile, estimate) {
  centre <- sum(events) / sum(size)
  points <- Map(function(x, n) {
    upper <- quantile(alpha, n, centre, lower.tail = FALSE)
    lower <- quantile(alpha, n, centre, lower.tail = TRUE)
    c(setNames(list(x / n), estimate), list(
      lowerCount = if (lower == 0) NA else lower,
      upperCount = upper,
      lower = if (lower == 0) NA else lower / n,
      upper = upper / n,
      signal = if (x > upper) "high" else if (x < lower) "low" else "none"))
  }, events, size)
  list(centre = centre, subgroups = points)
}

program("p-chart",
  fields = list(centre = plain, subgroups = "stats::qbinom"),
  cite = "Benneyan JC, Health Care Manag Sci 2001;4:305, doi:10.1023/A:1011846412909",
  answer = function(input) {
    control_chart(column(input$subgroups, "events"), column(input$subgroups, "of"), input$tailProbability, qbinom,
      "estimate")
  })

program("u-chart",
  fields = list(centre = plain, subgroups = "stats::qpois"),
  cite = "Benneyan JC, Health Care Manag Sci 2001;4:305, doi:10.1023/A:1011846412909",
  answer = function(input) {
    control_chart(column(input$subgroups, "events"), column(input$subgroups, "exposure"), input$tailProbability,
      function(alpha, size, rate, lower.tail) qpois(alpha, size * rate, lower.tail = lower.tail), "rate")
  })

program("g-chart",
  fields = list(
    meanGap = plain, pHat = plain, medianGap = "stats::qgeom", threeSigma = plain, probability = "stats::qgeom",
    signals = "stats::qgeom"),
  cite = c(
    "Benneyan JC, Health Care Manag Sci 2001;4:305, doi:10.1023/A:1011846412909",
    "Benneyan JC, Health Care Manag Sci 2001;4:319, doi:10.1023/A:1011806727354"),
  answer = function(input) {
    gaps <- unlist(input$gaps)
    mean_gap <- mean(gaps)
    p <- 1 / (mean_gap + 1)
    sigma <- sqrt(mean_gap * (mean_gap + 1))
    upper <- qgeom(input$tailProbability, p, lower.tail = FALSE)
    lower <- qgeom(input$tailProbability, p)
    list(
      meanGap = mean_gap,
      pHat = p,
      medianGap = qgeom(0.5, p),
      threeSigma = list(lower = max(0, mean_gap - 3 * sigma), upper = mean_gap + 3 * sigma),
      probability = list(lower = if (lower == 0) NA else lower, upper = upper),
      signals = ifelse(gaps > upper, "long", ifelse(gaps < lower, "short", "none")))
  })

program("t-chart",
  fields = list(meanTime = plain, nelson = plain, exponential = "stats::qexp", signalsExponential = "stats::qexp"),
  cite = "Nelson LS, J Qual Technol 1994;26:239",
  answer = function(input) {
    times <- unlist(input$times)
    y <- times^(1 / 3.6)
    range <- mean(abs(diff(y)))
    rate <- 1 / mean(times)
    lower <- qexp(input$tailProbability, rate)
    upper <- qexp(input$tailProbability, rate, lower.tail = FALSE)
    list(
      meanTime = mean(times),
      nelson = list(
        centre = mean(y)^3.6,
        lower = max(0, mean(y) - 2.66 * range)^3.6,
        upper = (mean(y) + 2.66 * range)^3.6,
        meanMovingRange = range),
      exponential = list(lower = lower, median = qexp(0.5, rate), upper = upper),
      signalsExponential = ifelse(times > upper, "long", ifelse(times < lower, "short", "none")))
  })

program("cusum",
  fields = list(
    path = "stats::dbinom", maximum = "stats::dbinom", firstSignal = plain, signals = plain,
    weightEventFirst = "stats::dbinom", weightNoEventFirst = "stats::dbinom"),
  cite = "Steiner SH, Cook RJ, Farewell VT, Treasure T, Biostatistics 2000;1:441",
  answer = function(input) {
    outcome <- unlist(input$outcomes)
    risk <- rep(unlist(input$risk), length.out = length(outcome))
    alternative <- plogis(qlogis(risk) + log(input$oddsRatioAlternative))
    # The weight is the log likelihood ratio of the outcome under the two risks.
    weight <- function(y) dbinom(y, 1, alternative, log = TRUE) - dbinom(y, 1, risk, log = TRUE)
    chosen <- weight(outcome)
    path <- numeric(length(outcome))
    signals <- integer()
    level <- 0
    for (t in seq_along(outcome)) {
      level <- max(0, level + chosen[t])
      path[t] <- level
      if (level >= input$threshold) {
        signals <- c(signals, t)
        if (input$resetAfterSignal) level <- 0
      }
    }
    constant <- length(unlist(input$risk)) == 1
    list(
      path = path,
      maximum = max(path),
      firstSignal = if (length(signals) == 0) NA else signals[1],
      signals = as.list(signals),
      weightEventFirst = if (constant) weight(rep(1, length(outcome)))[1] else NA,
      weightNoEventFirst = if (constant) weight(rep(0, length(outcome)))[1] else NA)
  })

# Expected number of uses until the lattice CUSUM stands at `threshold` or above, from 0: the linear system of its
# transient states.
run_length <- function(p, m, threshold) {
  state <- seq_len(threshold) - 1
  system <- diag(threshold)
  up <- state + m - 1
  inside <- up < threshold
  index <- cbind(state[inside] + 1, up[inside] + 1)
  system[index] <- system[index] - p
  down <- cbind(state + 1, pmax(state - 1, 0) + 1)
  system[down] <- system[down] - (1 - p)
  solve(system, rep(1, threshold))[1]
}

program("cusum-design",
  fields = list(
    p1Implied = "stats::uniroot", oddsRatioImplied = plain, arl = "base::solve", thresholdForTarget = "base::solve"),
  cite = "Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87",
  answer = function(input) {
    p0 <- input$p0
    m <- input$m
    excess <- function(eta) {
      p1 <- plogis(eta)
      log((1 - p0) / (1 - p1)) / log(p1 * (1 - p0) / (p0 * (1 - p1))) - 1 / m
    }
    p1 <- plogis(root(excess, qlogis(p0) + 1e-6, qlogis(p0) + 10))
    # The run length grows with the threshold, so the smallest that suffices is found by halving.
    low <- 1
    high <- input$threshold
    while (run_length(p0, m, high) < input$targetArl0) high <- 2 * high
    while (high > low) {
      middle <- (low + high) %/% 2
      if (run_length(p0, m, middle) >= input$targetArl0) high <- middle else low <- middle + 1
    }
    list(
      p1Implied = p1,
      oddsRatioImplied = p1 * (1 - p0) / (p0 * (1 - p1)),
      arl = lapply(unlist(input$pTrue), function(p) list(p = p, arl = run_length(p, m, input$threshold))),
      thresholdForTarget = list(
        targetArl0 = input$targetArl0, threshold = high, arl0 = run_length(p0, m, high)))
  })

# A rule in weights, moved to the nearest lattice of whole points.
program("cusum-reach",
  fields = list(
    p1 = "stats::plogis", m = "stats::dbinom", threshold = "stats::dbinom", falseAlarm = "base::solve",
    detection = "base::solve"),
  cite = "Reynolds MR, Stoumbos ZG, J Qual Technol 1999;31:87",
  answer = function(input) {
    p0 <- input$p0
    p1 <- plogis(qlogis(p0) + log(input$oddsRatioAlternative))
    # What an outcome adds is the log likelihood ratio; on the lattice an uneventful use takes 1, an event adds m - 1.
    weight <- function(y) dbinom(y, 1, p1, log = TRUE) - dbinom(y, 1, p0, log = TRUE)
    m <- round(1 - weight(1) / weight(0))
    threshold <- round(-input$threshold / weight(0))
    list(
      p1 = p1, m = m, threshold = threshold,
      falseAlarm = run_length(p0, m, threshold), detection = run_length(p1, m, threshold))
  })
