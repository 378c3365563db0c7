# Numbers for losses: an uneven line by lm() and uniroot(), a variance of two parts by optim(), where a line crosses a value by uniroot().
# The data are invented.
cat("case,quantity,value\n")
line <- function(case, quantity, value) cat(paste(case, quantity, format(value, digits = 17), sep = ","), "\n", sep = "")

uneven <- function(case, x, y, v, bent) {
  m <- function(t) if (bent) lm(y ~ x + I(x^2), weights = 1 / (v + t)) else lm(y ~ x, weights = 1 / (v + t))
  q <- function(t) sum(residuals(m(t))^2 / (v + t)) - df.residual(m(t))
  t <- if (q(0) > 0) uniroot(q, c(0, 10), tol = 1e-16)$root else 0
  f <- m(t); s <- summary(f)
  line(case, "between", sqrt(t))
  line(case, "level", coef(f)[[1]]); line(case, "slope", coef(f)[[2]])
  line(case, "level-u", s$coefficients[1, 2]); line(case, "slope-u", s$coefficients[2, 2])
  line(case, "covariance", vcov(f)[1, 2])
  if (bent) line(case, "p", s$coefficients[3, 4])
  invisible(f)
}
x <- c(-0.21, -0.13, -0.04, 0.02, 0.14, 0.22)
y <- c(-1.03, -1.86, -2.49, -3.21, -4.28, -4.83)
v <- c(0.0004, 0.0006, 0.0009, 0.0016, 0.0049, 0.0121)
f <- uneven("scattered", x, y, v, FALSE)
uneven("bent", x, y, v, TRUE)
even <- -3.02 - 9.4 * x + c(0.001, -0.004, 0.006, -0.003, 0.011, -0.02)
uneven("quiet", x, even, v, FALSE)

# where the line reaches -2.9, with its 95 % set (rising in -x)
u <- function(z) sqrt(sum(c(1, -z) * (vcov(f) %*% c(1, -z)))) * qt(0.975, df.residual(f))
h <- function(z) coef(f)[[1]] - coef(f)[[2]] * z + 2.9
line("crossing", "value", uniroot(h, c(-0.22, 0.21), tol = 1e-15)$root)
line("crossing", "lower", uniroot(function(z) h(z) + u(z), c(-0.22, 0.21), tol = 1e-15)$root)
line("crossing", "upper", uniroot(function(z) h(z) - u(z), c(-0.22, 0.21), tol = 1e-15)$root)
# the same ends from the quadratic of Fieller
a <- coef(f)[[1]] + 2.9; b <- -coef(f)[[2]]; V <- vcov(f); t2 <- qt(0.975, df.residual(f))^2
A <- b^2 - t2 * V[2, 2]; B <- a * b + t2 * V[1, 2]; C <- a^2 - t2 * V[1, 1]
line("crossing", "fieller-lower", (-B - sqrt(B^2 - A * C)) / A)
line("crossing", "fieller-upper", (-B + sqrt(B^2 - A * C)) / A)

# variance of two parts
l <- c(0.02, 0.04, 0.08, 0.14, 0.2, 0.24); s2 <- c(1.1, 0.7, 1.9, 2.2, 5.1, 4.4) * 1e-6; d <- c(2, 2, 2, 3, 2, 2)
g <- function(p) { w <- exp(p[1]) + exp(p[2]) * l^2; sum(d * log(w) + d * s2 / w) }
o <- optim(log(c(1e-6, 5e-5)), g, control = list(reltol = 1e-16, maxit = 20000))
o <- optim(o$par, g, method = "BFGS", control = list(reltol = 1e-16, maxit = 20000))
p <- exp(o$par); w <- p[1] + p[2] * l^2
line("two-parts", "constant", p[1]); line("two-parts", "proportional", p[2])
I <- crossprod(cbind(1, l^2) * sqrt(d / 2) / w)
for (k in c(0.02, 0.14)) { z <- c(1, k^2); line("two-parts", paste0("df-", k), 2 * sum(z * p)^2 / sum(z * (solve(I, tol = 1e-40) %*% z))) }
