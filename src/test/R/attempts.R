# Section 7: attempts within cases, adjusted p-values, pairs of techniques.

program("attempts",
  fields = list(
    cases = plain, attempts = plain, perAttempt = c("stats::prop.test", "stats::qt", plain),
    perCase = "stats::prop.test", firstAttempt = "stats::prop.test", afterFailure = plain,
    byAttemptNumber = "stats::prop.test", meanAttemptsPerCase = plain),
  cite = c(
    "Cochran WG, Sampling Techniques, Wiley 1977 (ratio estimator)",
    "Rao JNK, Scott AJ, Biometrics 1992;48:577",
    "Korn EL, Graubard BI, Survey Methodol 1998;24:193"),
  answer = function(input) {
    level <- input$confidence
    cases <- lapply(input$cases, function(case) as.numeric(unlist(case)))
    m <- lengths(cases)
    y <- sapply(cases, sum)
    k <- length(cases)
    p <- sum(y) / sum(m)
    residual <- y - p * m
    variance <- k / (k - 1) * sum(residual^2) / sum(m)^2
    varies <- variance > 0
    effect <- if (varies) variance / (p * (1 - p) / sum(m)) else NA
    effective <- sum(m) / if (varies) max(1, effect) else 1
    half <- qt((1 - level) / 2, k - 1, lower.tail = FALSE) * sqrt(variance)
    if (varies) {
      # The same variance as the cluster-robust one of a regression on nothing but an intercept.
      attempt <- data.frame(success = unlist(cases), case = rep(seq_along(cases), m))
      fit <- lm(success ~ 1, attempt)
      score <- rowsum(residuals(fit), attempt$case)
      compare("perAttempt.clusterStandardError", sqrt(variance),
        sqrt(k / (k - 1) * sum(score^2)) * summary(fit)$cov.unscaled[1, 1], "stats::lm")
    }
    counted <- function(x, n) list(successes = x, estimate = share(x, n), wilson = wilson(x, n, level))
    failed_before <- unlist(lapply(cases, function(case) cumsum(case == 0) - (case == 0) > 0))
    success <- unlist(cases)
    number <- unlist(lapply(cases, seq_along))
    list(
      cases = k,
      attempts = sum(m),
      perAttempt = list(
        successes = sum(y),
        estimate = p,
        naiveWilson = wilson(sum(y), sum(m), level),
        clusterStandardError = sqrt(variance),
        designEffect = effect,
        clusterT = if (varies) interval(c(max(0, p - half), min(1, p + half))) else no_interval,
        effectiveN = effective,
        effectiveWilson = wilson(p * effective, effective, level)),
      perCase = counted(sum(y > 0), k),
      firstAttempt = counted(sum(success[number == 1]), k),
      afterFailure = list(
        attempts = sum(failed_before),
        successes = sum(success[failed_before]),
        estimate = share(sum(success[failed_before]), sum(failed_before))),
      byAttemptNumber = lapply(seq_len(max(m)), function(j) {
        c(list(attempt = j, attempted = sum(number == j)), counted(sum(success[number == j]), sum(number == j)))
      }),
      meanAttemptsPerCase = mean(m))
  })

program("adjusted-p-values",
  fields = list(holm = "stats::p.adjust", benjaminiHochberg = "stats::p.adjust", bonferroni = "stats::p.adjust"),
  cite = c("Holm S, Scand J Stat 1979;6:65", "Benjamini Y, Hochberg Y, J R Stat Soc B 1995;57:289"),
  answer = function(input) {
    p <- as.numeric(unlist(input$pValues))
    list(
      holm = p.adjust(p, "holm"), benjaminiHochberg = p.adjust(p, "BH"), bonferroni = p.adjust(p, "bonferroni"))
  })

program("pairwise-differences",
  fields = list(
    pairs = c("stats::prop.test", "stats::fisher.test", "stats::dhyper", "stats::p.adjust", plain)),
  cite = c(
    "Newcombe RG, Stat Med 1998;17:873",
    "Holm S, Scand J Stat 1979;6:65",
    "Benjamini Y, Hochberg Y, J R Stat Soc B 1995;57:289"),
  answer = function(input) {
    pairs <- combn(length(input$groups), 2, simplify = FALSE)
    tested <- lapply(pairs, function(pair) {
      group <- input$groups[pair]
      x <- column(group, "successes")
      n <- column(group, "of")
      list(
        first = group[[1]]$name,
        second = group[[2]]$name,
        difference = x[1] / n[1] - x[2] / n[2],
        newcombe = newcombe(
          list(events = x[1], of = n[1]), list(events = x[2], of = n[2]), input$confidence, FALSE),
        fisherPValue = fisher.test(cbind(x, n - x))$p.value,
        midPValue = mid_p_value(x[1], n[1] - x[1], x[2], n[2] - x[2]))
    })
    adjusted <- function(name, method) p.adjust(sapply(tested, `[[`, name), method)
    list(pairs = unname(Map(
      function(pair, fisher_holm, fisher_bh, mid_holm, mid_bh) {
        c(pair, fisherHolm = fisher_holm, fisherBenjaminiHochberg = fisher_bh, midPHolm = mid_holm,
          midPBenjaminiHochberg = mid_bh)
      },
      tested, adjusted("fisherPValue", "holm"), adjusted("fisherPValue", "BH"), adjusted("midPValue", "holm"),
      adjusted("midPValue", "BH"))))
  })
