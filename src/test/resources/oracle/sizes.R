# Sizes of studies, by base R alone. Rscript sizes.R > sizes.csv
out <- function(case, quantity, value) cat(sprintf("%s,%s,%.17g\n", case, quantity, value))
cat("case,quantity,value\n")

# --- two groups: power.t.test() -------------------------------------------------------------------------------------
for (d in c(0.5, 1, 2)) {
  n <- ceiling(power.t.test(delta = d, sd = 1, power = 0.9, strict = TRUE)$n)
  out(sprintf("difference-%g", d), "n", n)
  out(sprintf("difference-%g", d), "power", power.t.test(n = n, delta = d, sd = 1, strict = TRUE)$power)
}

# --- equivalence: the joint law of both statistics by integrate() over the chi-square variable itself --------------
tost <- function(low, high, diff, se, df, risk) {
  t <- qt(1 - risk, df)
  f <- function(q) {
    s <- sqrt(q / df)
    pmax(0, pnorm((high - diff) / se - t * s) - pnorm((low - diff) / se + t * s)) * dchisq(q, df)
  }
  top <- df * ((high - low) / (2 * t * se))^2
  integrate(f, 0, min(top, qchisq(1 - 1e-14, df)), rel.tol = 1e-11, subdivisions = 2000)$value
}
cases <- list(c(-0.1, 0.1, 0, 0.03, 10, 0.05), c(-0.1, 0.1, 0.02, 0.05, 4, 0.05), c(-0.05, 0.08, 0.01, 0.02, 30, 0.025),
              c(-0.1, 0.1, 0, 0.08, 6, 0.05))
for (i in seq_along(cases)) out(sprintf("tost-%d", i), "power", do.call(tost, as.list(cases[[i]])))

# --- a mean: uniroot-free, by counting ------------------------------------------------------------------------------
for (w in c(0.3, 0.5, 1)) {
  n <- 2
  while (qt(0.975, n - 1) / sqrt(n) > w) n <- n + 1
  out(sprintf("mean-%g", w), "n", n)
}

# --- degrees of freedom of a standard deviation, counting ----------------------------------------------------------
for (f in c(1.2, 1.5, 2)) {
  nu <- 1
  while (sqrt(nu / qchisq(0.05, nu)) > f) nu <- nu + 1
  out(sprintf("sd-%g", f), "df", nu)
}

# --- detection limit from n blanks: uniroot() on pt(ncp) -----------------------------------------------------------
for (n in c(5, 10, 20)) {
  d <- uniroot(function(x) pt(qt(0.95, n - 1), n - 1, x) - 0.05, c(0.1, 20), tol = 1e-12)$root
  out(sprintf("blanks-%d", n), "limit", d * sqrt(1 + 1 / n))
}
