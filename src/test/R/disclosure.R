# Section 12: small counts and disclosure. A two-way table with printed totals takes its extreme values at whole tables
# (its constraints are totally unimodular), so every table that fits is written out instead of solving linear programs.

# All ways to fill the hidden cells with whole numbers, one row each; none if the totals contradict each other.
# `cells` is a matrix with NA for a hidden cell.
fitting_tables <- function(cells, row_totals, column_totals) {
  hidden <- which(is.na(cells), arr.ind = TRUE)
  left_rows <- row_totals - rowSums(cells, na.rm = TRUE)
  left_columns <- column_totals - colSums(cells, na.rm = TRUE)
  solutions <- list()
  fill <- function(k, rows, columns, chosen) {
    if (k > nrow(hidden)) {
      if (all(rows == 0) && all(columns == 0)) solutions[[length(solutions) + 1]] <<- chosen
      return(invisible())
    }
    i <- hidden[k, 1]
    j <- hidden[k, 2]
    most <- min(rows[i], columns[j])
    if (most < 0) return(invisible())
    # The last hidden cell of its row or column has no choice.
    following <- hidden[seq_len(nrow(hidden)) > k, , drop = FALSE]
    values <- 0:most
    if (!any(following[, 1] == i)) values <- intersect(values, rows[i])
    if (!any(following[, 2] == j)) values <- intersect(values, columns[j])
    for (value in values) {
      fill(k + 1, replace(rows, i, rows[i] - value), replace(columns, j, columns[j] - value), c(chosen, value))
    }
  }
  fill(1, left_rows, left_columns, numeric())
  list(hidden = hidden, tables = do.call(rbind, solutions))
}

ranges <- function(cells, row_totals, column_totals, threshold) {
  fit <- fitting_tables(cells, row_totals, column_totals)
  if (is.null(fit$tables)) return(NULL)
  minimum <- apply(fit$tables, 2, min)
  maximum <- apply(fit$tables, 2, max)
  data.frame(row = fit$hidden[, 1], column = fit$hidden[, 2], minimum = minimum, maximum = maximum,
    protected = maximum >= threshold & maximum - minimum >= threshold - 1)
}

program("suppression-audit",
  fields = list(consistent = plain, suppressedCells = plain, safe = plain),
  cite = c(
    "Hundepool A et al., Statistical Disclosure Control, Wiley 2012",
    "Gusfield D, SIAM J Comput 1988;17:552"),
  answer = function(input) {
    cells <- do.call(rbind, lapply(input$cells, function(row) {
      sapply(row, function(cell) if (is.null(cell)) NA_real_ else cell)
    }))
    found <- ranges(cells, unlist(input$rowTotals), unlist(input$columnTotals), input$threshold)
    if (is.null(found)) return(list(consistent = FALSE, suppressedCells = list(), safe = FALSE))
    found <- found[order(found$row, found$column), ]
    list(
      consistent = TRUE,
      suppressedCells = lapply(seq_len(nrow(found)), function(i) {
        cell <- found[i, ]
        list(
          row = cell$row, column = cell$column, minimum = cell$minimum, maximum = cell$maximum,
          exactlyDisclosed = cell$minimum == cell$maximum, protected = cell$protected)
      }),
      safe = all(found$protected))
  })

program("suppression",
  fields = list(primary = plain, minimumComplementaryCells = plain, minimumComplementarySum = plain),
  cite = c(
    "Hundepool A et al., Statistical Disclosure Control, Wiley 2012",
    "Fischetti M, Salazar JJ, J Am Stat Assoc 2000;95:916"),
  answer = function(input) {
    cells <- do.call(rbind, lapply(input$cells, unlist))
    small <- which(cells > 0 & cells < input$threshold, arr.ind = TRUE)
    small <- small[order(small[, 1], small[, 2]), , drop = FALSE]
    primary <- cells > 0 & cells < input$threshold
    others <- which(cells >= input$threshold)
    protects <- function(extra) {
      shown <- replace(cells, c(which(primary), extra), NA)
      found <- ranges(shown, rowSums(cells), colSums(cells), input$threshold)
      all(found$protected[primary[cbind(found$row, found$column)]])
    }
    # Every set of further cells, the smallest sets first; of the smallest that protect, the least sum.
    for (size in 0:length(others)) {
      sets <- if (size == 0) list(integer()) else combn(seq_along(others), size, simplify = FALSE)
      sums <- sapply(sets, function(set) sum(cells[others[set]]))
      fitting <- sapply(sets, function(set) protects(others[set]))
      if (any(fitting)) break
    }
    list(
      primary = lapply(seq_len(nrow(small)), function(i) {
        list(row = small[i, 1], column = small[i, 2], count = cells[small[i, 1], small[i, 2]])
      }),
      minimumComplementaryCells = size,
      minimumComplementarySum = min(sums[fitting]))
  })
