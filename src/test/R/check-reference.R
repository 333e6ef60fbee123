# Recomputes every example of the reference file and compares. From the root of the project:
#
#   Rscript src/test/R/check-reference.R [reference.json] [result.json] [provenance.json]
#
# Exits with 1 if a value differs, if R contradicts itself, or if an example has no program.

arguments <- commandArgs(trailingOnly = TRUE)
argument <- function(i, default) if (length(arguments) >= i) arguments[i] else default
reference_file <- argument(1, "src/test/resources/reference/reference-values.json")
result_file <- argument(2, "target/reference-check.json")
provenance_file <- argument(3, "src/test/resources/reference/provenance.json")

packages <- c("jsonlite", "MASS", "nlme", "survival", "Epi", "epitools", "metafor", "metadat", "brglm2")
missing <- packages[!sapply(packages, requireNamespace, quietly = TRUE)]
if (length(missing) > 0) {
  message("R packages missing: ", paste(missing, collapse = ", "))
  quit(status = 2)
}
# Packages are named at each call; survival is attached because its clogit looks for coxph, and its formulas for
# strata, on the search path.
suppressPackageStartupMessages(library(survival))
options(digits = 15, warn = 1)

here <- dirname(sub("^--file=", "", grep("^--file=", commandArgs(FALSE), value = TRUE)[1]))
source(file.path(here, "common.R"))
for (section in c("proportions", "rates", "two-by-two", "strata", "logistic", "attempts", "time", "centres", "pooling",
  "planning", "disclosure", "quality")) {
  current$file <- paste0(section, ".R")
  source(file.path(here, current$file))
}

# The published figures of the file name some fields by an older spelling.
older_spelling <- c(
  wilson_cc = "wilsonContinuity", clopper_pearson = "clopperPearson", midp = "midP", midp_p = "midPValue",
  fisher_p = "fisherPValue", conditional_mle = "conditionalMle", sample_or = "oddsRatio", mh_or = "oddsRatio",
  cmh_cc = "cmhContinuity", p_minlike = "minlikePValue", p_exact_minlike = "minlikePValue",
  exact_p_one_sided_upper = "exactUpperPValue", p_two_sided = "pValue", i2_reml = "i2Reml", n1_exact = "n1Exact",
  p = "pValue", se = "standardError")

# Walks the expected tree. A number passes as the reference file says; a p-value must also hold to the relative
# tolerance, or the absolute one would let any p-value below it pass.
compare_trees <- function(expected, got, tolerance, path = "") {
  differences <- character()
  worst <- 0
  visit <- function(expected, got, path) {
    differ <- function(text) differences <<- c(differences, paste0(path, ": ", text))
    if (is.list(expected) && !is.null(names(expected))) {
      for (name in names(expected)) {
        if (is.list(got) && name %in% names(got)) visit(expected[[name]], got[[name]], paste0(path, "/", name))
        else differ(paste(name, "not computed"))
      }
    } else if (is.list(expected)) {
      if (length(expected) != length(got)) return(differ(paste("length", length(got), "for", length(expected))))
      for (i in seq_along(expected)) visit(expected[[i]], got[[i]], paste0(path, "/", i))
    } else if (is.null(expected)) {
      if (!(length(got) == 1 && is.na(got))) differ(paste("got", format(got), "for null"))
    } else if (is.numeric(expected)) {
      if (!is.numeric(got) || length(got) != 1 || is.na(got)) return(differ(paste("got", format(got), "for", expected)))
      p_value <- grepl("[pP]Value$", path) && expected != 0
      allowed <- if (p_value) tolerance$rel * abs(expected) else tolerance$abs + tolerance$rel * abs(expected)
      if (abs(got - expected) > allowed) differ(sprintf("got %.15g for %.15g", got, expected))
      # Where only the absolute tolerance means anything, a relative difference says nothing.
      if (p_value || abs(expected) > tolerance$abs) worst <<- max(worst, relative(got, expected))
    } else if (expected %in% c("Inf", "-Inf") && is.numeric(got)) {
      if (!identical(as.numeric(got), as.numeric(expected))) differ(paste("got", got, "for", expected))
    } else if (!identical(unname(got), expected)) {
      differ(paste("got", format(got), "for", expected))
    }
  }
  visit(expected, got, path)
  list(differences = differences, worst = worst)
}

unrounded <- function(example, answer) {
  unlist(lapply(example$published, function(figure) {
    steps <- strsplit(figure$path, ".", fixed = TRUE)[[1]]
    steps <- ifelse(steps %in% names(older_spelling), older_spelling[steps], steps)
    value <- answer
    for (step in steps) value <- if (is.list(value)) value[[step]] else NULL
    if (is.null(value)) return(paste0("published ", figure$path, ": not computed"))
    if (abs(value - figure$value) > 0.5 * 10^-figure$decimals * (1 + 1e-9)) {
      paste0("published ", figure$path, ": got ", format(value, digits = 8), " for ", figure$value)
    }
  }))
}

check <- function(example) {
  program <- programs[[example$method]]
  result <- list(id = example$id, method = example$method)
  if (is.null(program)) {
    return(c(result, list(ok = FALSE, worstRelativeDifference = NA, by = NA, differences = list("no program"))))
  }
  current$comparisons <- list()
  answer <- tryCatch(program$answer(example$input), error = function(e) e)
  if (inherits(answer, "error")) {
    return(c(result, list(ok = FALSE, worstRelativeDifference = NA, by = NA,
      differences = list(paste("the program failed:", conditionMessage(answer))))))
  }
  compared <- compare_trees(example$expected, answer, example$tolerance)
  differences <- c(compared$differences, unrounded(example, answer))
  unsourced <- setdiff(names(example$expected), names(program$fields))
  if (length(unsourced) > 0) {
    differences <- c(differences, paste("no source named for", paste(unsourced, collapse = ", ")))
  }
  for (comparison in current$comparisons) {
    if (!comparison$ok) {
      differences <- c(differences, sprintf("%s: %s differs by %.2g, allowed %.2g", comparison$what, comparison$by,
        comparison$worst, comparison$tolerance))
    }
  }
  data <- data_sources[[example$id]]
  if (!is.null(data) && !isTRUE(data$agrees(example$input))) {
    differences <- c(differences, paste("the input is not that of", data$data))
  }
  c(result, list(
    ok = length(differences) == 0,
    worstRelativeDifference = signif(compared$worst, 3),
    by = paste(sort(unique(unlist(program$fields[names(example$expected)])), method = "radix"), collapse = ", "),
    data = if (is.null(data)) NA else data$data,
    published = length(example$published),
    compared = lapply(current$comparisons, function(comparison) {
      comparison$worst <- if (is.finite(comparison$worst)) signif(comparison$worst, 3) else "Inf"
      comparison
    }),
    differences = as.list(differences)))
}

write_json <- function(value, file) {
  dir.create(dirname(file), showWarnings = FALSE, recursive = TRUE)
  json <- jsonlite::toJSON(value, auto_unbox = TRUE, pretty = TRUE, digits = NA, na = "null", null = "null")
  writeLines(json, file)
}

# One row for each method, sorted; nothing in it depends on the machine.
provenance <- function(examples, results) {
  methods <- sort(unique(sapply(examples, `[[`, "method")), method = "radix")
  sorted <- function(values) as.list(sort(unique(as.character(values)), method = "radix"))
  lapply(methods, function(method) {
    program <- programs[[method]]
    mine <- Filter(function(result) result$method == method, results)
    compared <- unlist(lapply(mine, `[[`, "compared"), recursive = FALSE)
    key <- vapply(compared, function(comparison) paste(comparison$what, comparison$by), "")
    compared <- compared[match(sort(unique(key), method = "radix"), key)]
    list(
      method = method,
      program = paste0("src/test/R/", program$file),
      rFunctions = sorted(c(unlist(program$fields, use.names = FALSE), unlist(lapply(compared, `[[`, "by")))),
      fields = lapply(program$fields[order(names(program$fields), method = "radix")], function(by) as.list(by)),
      comparedWith = lapply(compared, function(comparison) {
        comparison[c("what", "by", "tolerance", "why")]
      }),
      references = sorted(sapply(mine, `[[`, "id")),
      data = sorted(unlist(lapply(mine, function(result) if (is.na(result$data)) NULL else result$data))),
      citations = as.list(program$cite))
  })
}

examples <- jsonlite::fromJSON(reference_file, simplifyVector = FALSE)$examples
results <- lapply(examples, check)
write_json(results, result_file)
failed <- Filter(function(result) !result$ok, results)
cat(sprintf("%s; %s\n", R.version.string, paste(packages, sapply(packages, function(name) {
  as.character(packageVersion(name))
}), collapse = ", ")))
for (result in failed) {
  cat(result$method, result$id, "\n")
  for (difference in result$differences) cat("    ", difference, "\n", sep = "")
}
worst <- unlist(lapply(results, `[[`, "worstRelativeDifference"))
cat(sprintf("%d examples of %d methods recomputed, %d differ; worst relative difference %.2g\n",
  length(results), length(unique(sapply(examples, `[[`, "method"))), length(failed), max(0, worst, na.rm = TRUE)))
cat(sprintf("%d published figures, %d comparisons with a second function, %d inputs drawn again from open data sets\n",
  sum(unlist(lapply(results, `[[`, "published"))), sum(lengths(lapply(results, `[[`, "compared"))),
  sum(sapply(results, function(result) is.character(result$data)))))
if (length(failed) > 0) quit(status = 1)
write_json(provenance(examples, results), provenance_file)
