# Numbers for the tests of recovery, by base R alone. Rscript recovery.R > recovery.csv
out <- function(case, quantity, value) cat(sprintf("%s,%s,%.17g\n", case, quantity, value))
cat("case,quantity,value\n")

# --- do levels agree: oneway.test() for unequal variances ----------------------------------------------------------
levels <- list(c(0.91, 0.97, 0.94), c(0.985, 0.955, 0.99, 0.962), c(0.931, 0.948, 0.951, 0.94, 0.936))
r <- unlist(levels)
g <- factor(rep(seq_along(levels), lengths(levels)))
w <- oneway.test(r ~ g, var.equal = FALSE)
out("levels", "F", w$statistic)
out("levels", "numerator", w$parameter[1])
out("levels", "denominator", w$parameter[2])
out("levels", "p", w$p.value)

# --- all together: mean of all, each level with its own variance ---------------------------------------------------
parts <- sapply(levels, function(x) (length(x) / length(r))^2 * var(x) / length(x))
u2 <- sum(parts)
nu <- u2^2 / sum(parts^2 / (lengths(levels) - 1))
out("pooled", "mean", mean(r))
out("pooled", "u", sqrt(u2))
out("pooled", "df", nu)
out("pooled", "t", abs(mean(r) - 1) / sqrt(u2))
# one estimate with fewer than 6 degrees of freedom holds more than half: its own are taken for t
own <- (lengths(levels) - 1)[parts > u2 / 2]
if (length(own) == 1 && own < 6) nu <- min(nu, own)
out("pooled", "p", 2 * pt(-abs(mean(r) - 1) / sqrt(u2), nu))
out("pooled", "lower", mean(r) - qt(0.975, nu) * sqrt(u2))
out("pooled", "upper", mean(r) + qt(0.975, nu) * sqrt(u2))

# --- standard addition: lm() of the amounts found on test portion and amount added, no intercept --------------------
portion <- c(50.1, 49.7, 50.4, 48.9, 51.2, 50.0, 49.5, 50.8)
added <- c(0, 0, 20, 20, 40, 40, 60, 60)
found <- c(30.2, 29.6, 49.1, 47.9, 67.5, 66.0, 84.9, 86.3)
s <- summary(lm(found ~ 0 + portion + added))
out("addition", "slope", s$coefficients["added", 1])
out("addition", "u", s$coefficients["added", 2])
out("addition", "df", s$df[2])
