# Numbers for the tests of the rooms statistics and propagation, by base R alone (no packages).
# Rscript oracle.R > oracle.csv
out <- function(case, quantity, value) cat(sprintf("%s,%s,%.17g\n", case, quantity, value))
cat("case,quantity,value\n")

# --- weighted lines: weights 1/x^p, scatter proportional to x^p --------------------------------------
x <- c(0.5, 0.5, 1, 1, 2, 2, 5, 5, 10, 10, 20, 20)
y <- c(1.31, 1.22, 2.26, 2.41, 4.52, 4.28, 10.61, 11.20, 20.1, 21.4, 42.9, 40.2)
for (p in 0:2) {
  fit <- lm(y ~ x, weights = 1 / x^p)
  v <- vcov(fit)
  case <- paste0("line-weights-", p)
  out(case, "intercept", coef(fit)[[1]])
  out(case, "slope", coef(fit)[[2]])
  out(case, "residual-sd", summary(fit)$sigma)
  out(case, "intercept-variance", v[1, 1])
  out(case, "slope-variance", v[2, 2])
  out(case, "covariance", v[1, 2])
  out(case, "r-squared", summary(fit)$r.squared)
  # lack of fit by comparison of models
  level <- lm(y ~ factor(x), weights = 1 / x^p)
  a <- anova(fit, level)
  out(case, "lack-of-fit-F", a$F[2])
  out(case, "lack-of-fit-p", a$"Pr(>F)"[2])
  # ends of {x0 : |y0 - a - b x0| <= t sqrt(var)} found by bisection, not by a formula
  s2 <- summary(fit)$sigma^2
  m <- 2
  t <- qt(0.975, fit$df.residual)
  for (y0 in c(1.5, 12, 38)) {
    g <- function(z) (y0 - coef(fit)[[1]] - coef(fit)[[2]] * z)^2 -
      t^2 * (s2 * z^p / m + v[1, 1] + 2 * z * v[1, 2] + z^2 * v[2, 2])
    x0 <- (y0 - coef(fit)[[1]]) / coef(fit)[[2]]
    out(case, paste0("inverse-at-", y0, "-lower"), uniroot(g, c(x0 - 3, x0), tol = 1e-14, maxiter = 10000)$root)
    out(case, paste0("inverse-at-", y0, "-upper"), uniroot(g, c(x0, x0 + 12), tol = 1e-14, maxiter = 10000)$root)
  }
}

# --- restricted likelihood by the general matrix formula ---------------------------------------------
reml <- function(X, y, v) {
  W <- diag(1 / v)
  A <- t(X) %*% W %*% X
  r <- y - X %*% solve(A, t(X) %*% W %*% y)
  df <- nrow(X) - ncol(X)
  s2 <- as.numeric(t(r) %*% W %*% r) / df
  -0.5 * (df * log(s2) + sum(log(v)) + as.numeric(determinant(A)$modulus))
}
X <- model.matrix(~ 0 + factor(x))
out("evidence-preparations", "inverse-square-minus-none", reml(X, y, x^2) - reml(X, y, rep(1, 12)))
xs <- c(1, 2, 4, 7, 11, 16)
ys <- c(3.2, 5.1, 9.9, 16.8, 26.1, 35.7)
L <- cbind(1, xs)
out("evidence-residuals", "inverse-square-minus-none", reml(L, ys, xs^2) - reml(L, ys, rep(1, 6)))

# --- nested scatter, unbalanced ----------------------------------------------------------------------
d <- data.frame(
  y = c(10.1, 10.4, 10.2, 11.0, 11.3, 9.7, 12.1, 12.4, 12.2, 12.0, 11.5, 11.9, 13.0, 8.8, 9.1, 9.3, 9.0, 9.6),
  g = c("a","a","a","a","a","a","b","b","b","b","b","b","b","c","c","c","c","c"),
  p = c(1, 1, 1, 2, 2, 3, 1, 1, 1, 1, 2, 2, 3, 1, 1, 2, 2, 2))
f <- anova(lm(y ~ g / factor(p), data = d))
out("nested-unbalanced", "injection-ms", f["Residuals", "Mean Sq"])
out("nested-unbalanced", "preparation-ms", f["g:factor(p)", "Mean Sq"])
out("nested-unbalanced", "injection-df", f["Residuals", "Df"])
out("nested-unbalanced", "preparation-df", f["g:factor(p)", "Df"])
# n0 from its meaning, E MS_p = var_i + n0 var_p: the mean square of the projections of unit preparation effects
Z <- model.matrix(~ 0 + interaction(g, p, drop = TRUE), data = d)
G <- model.matrix(~ 0 + g, data = d)
P <- Z %*% solve(t(Z) %*% Z) %*% t(Z) - G %*% solve(t(G) %*% G) %*% t(G)
out("nested-unbalanced", "n0", sum(diag(t(Z) %*% P %*% Z)) / f["g:factor(p)", "Df"])

# --- quantiles ---------------------------------------------------------------------------------------
for (df in c(1, 2, 2.5, 5.29, 30, 1000)) for (pr in c(1e-10, 0.005, 0.1, 0.4, 0.6, 0.975, 0.9995)) {
  out(paste0("t-", df), pr, qt(pr, df))
}
for (df in c(0.5, 1, 3, 6, 24.7, 300)) for (pr in c(1e-6, 0.005, 0.1, 0.5, 0.975, 0.9999)) {
  out(paste0("chi-square-", df), pr, qchisq(pr, df))
}
for (f in c(0.1, 1, 4.6, 50)) out("F-tail-5-24", f, pf(f, 5, 24, lower.tail = FALSE))
out("F-tail-11-26", 30.30122052, pf(30.30122052, 11, 26, lower.tail = FALSE))
