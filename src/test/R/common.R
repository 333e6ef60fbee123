# What the section files share: how a program is declared, and the few pieces of numerical work that R lacks or does too
# loosely for limits to eight digits.

programs <- new.env()
data_sources <- new.env()
current <- new.env()

# One program for each method of the reference file.
#   fields  where each top-level field of the answer comes from: an R function, or `plain` for the formula written out
#   cite    where the formula was published
#   answer  function(input) giving at least the fields of `expected`; NA stands for null, Inf for "Inf"
program <- function(method, fields, cite, answer) {
  stopifnot(is.null(programs[[method]]))
  programs[[method]] <- list(
    method = method, file = current$file, fields = fields, cite = cite, answer = answer)
}

plain <- "formula in plain R"

# An open data set that ships with R or a package and from which an example was drawn: `agrees` says whether it was.
drawn_from <- function(id, data, agrees) {
  data_sources[[id]] <- list(data = data, agrees = agrees)
}

# A second opinion on part of an answer, from a function that computes it in its own way. `tolerance` is relative; an
# absolute 1e-12 is always allowed. Where it is looser than the example's own, `why` says what limits that function.
compare <- function(what, mine, theirs, by, tolerance = 1e-6, why = "equal up to rounding") {
  mine <- as.numeric(unlist(mine))
  theirs <- as.numeric(unlist(theirs))
  same <- length(mine) == length(theirs) && all(is.na(mine) == is.na(theirs))
  apart <- !is.na(mine) & mine != theirs & abs(theirs - mine) > 1e-12
  worst <- if (same) max(0, relative(theirs, mine)[apart]) else Inf
  current$comparisons <- c(current$comparisons, list(list(
    what = what, by = by, tolerance = tolerance, why = why, worst = worst, ok = worst <= tolerance)))
}

relative <- function(got, expected) {
  ifelse(got == expected, 0, abs(got - expected) / abs(expected))
}

interval <- function(limits) list(lower = limits[[1]], upper = limits[[2]])

no_interval <- interval(c(NA, NA))

or_else <- function(x, other) if (is.null(x)) other else x

# A column of numbers from an array of objects; null becomes NA.
column <- function(rows, name) {
  sapply(rows, function(row) if (is.null(row[[name]])) NA else row[[name]])
}

normal_quantile <- function(level) qnorm((1 - level) / 2, lower.tail = FALSE)

# P(chi-squared > x), summed from its own side so that it does not vanish at 1e-16.
chi2_tail <- function(x, df) pchisq(x, df, lower.tail = FALSE)

two_sided <- function(z) 2 * pnorm(-abs(z))

# The root to the last digits: uniroot's default stops at 1.2e-4. `f` must change sign once between the ends.
root <- function(f, lower, upper) {
  uniroot(f, c(lower, upper), tol = 1e-15, maxiter = 5000)$root
}

# Steps out from `from` in the direction of `step`, doubling it, until f changes its sign; then the root.
root_outward <- function(f, from, step) {
  start <- f(from)
  to <- from + step
  while (sign(f(to)) == sign(start)) {
    from <- to
    step <- 2 * step
    to <- from + step
    if (abs(to) > 1e4) stop("no root found")
  }
  root(f, min(from, to), max(from, to))
}

# Wilson's interval is the one of R's score test without correction; NA where there is nothing to estimate from.
wilson <- function(x, n, level) {
  if (is.na(n) || n == 0) return(no_interval)
  interval(quietly(prop.test(x, n, conf.level = level, correct = FALSE))$conf.int)
}

quietly <- function(expr) suppressMessages(suppressWarnings(expr))

share <- function(x, n) if (n == 0) NA else x / n

# Maximises c'x over Ax <= b, x >= 0 for b >= 0, by the tableau with Bland's rule, which cannot cycle. The origin is a
# vertex, so no first phase is needed. The problem must be bounded.
maximise_linear <- function(objective, A, b) {
  stopifnot(all(b >= 0))
  m <- nrow(A)
  n <- ncol(A)
  tableau <- rbind(cbind(A, diag(m), b), c(-objective, rep(0, m + 1)))
  basis <- n + seq_len(m)
  repeat {
    entering <- which(tableau[m + 1, seq_len(n + m)] < -1e-11)
    if (length(entering) == 0) break
    j <- entering[1]
    positive <- which(tableau[seq_len(m), j] > 1e-11)
    stopifnot(length(positive) > 0)
    ratio <- tableau[positive, n + m + 1] / tableau[positive, j]
    ties <- positive[ratio <= min(ratio) + 1e-13]
    i <- ties[which.min(basis[ties])]
    tableau[i, ] <- tableau[i, ] / tableau[i, j]
    for (k in setdiff(seq_len(m + 1), i)) tableau[k, ] <- tableau[k, ] - tableau[k, j] * tableau[i, ]
    basis[i] <- j
  }
  tableau[m + 1, n + m + 1]
}
