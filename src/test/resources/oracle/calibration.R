# Numbers for the tests of calibration and detection in the room statistics, by base R alone (no packages).
# Rscript calibration.R > calibration.csv
out <- function(case, quantity, value) cat(sprintf("%s,%s,%.17g\n", case, quantity, value))
cat("case,quantity,value\n")

# --- REML of s0^2 + (s1 mu)^2: iterated minimum norm equations, full matrices, mean in turns ---------------
terms <- list(line = function(x) cbind(1, x), origin = function(x) cbind(x), quadratic = function(x) cbind(1, x, x^2))
projector <- function(X, V) { W <- solve(V); W - W %*% X %*% solve(t(X) %*% W %*% X) %*% t(X) %*% W }
gls <- function(X, y, V) solve(t(X) %*% solve(V) %*% X, t(X) %*% solve(V) %*% y)
reml <- function(X, y, share, theta) {
  mu <- y
  for (i in 1:2000) {
    Z <- list(diag(share), diag(share * as.numeric(mu)^2))
    P <- projector(X, theta[1] * Z[[1]] + theta[2] * Z[[2]])
    S <- outer(1:2, 1:2, Vectorize(function(k, l) sum(diag(P %*% Z[[k]] %*% P %*% Z[[l]]))))
    q <- sapply(Z, function(z) t(y) %*% P %*% z %*% P %*% y)
    new <- as.numeric(solve(S, q))
    beta <- gls(X, y, new[1] * Z[[1]] + new[2] * Z[[2]])
    change <- max(abs(new / theta - 1), abs(X %*% beta / mu - 1))
    theta <- new; mu <- X %*% beta
    if (change < 1e-14) break
  }
  list(theta = theta, beta = as.numeric(beta), mu = as.numeric(mu), W = solve(S / 2), change = change)
}
# restricted log-likelihood of a covariance known up to a factor
loglik <- function(X, y, V) {
  nu <- nrow(X) - ncol(X)
  rss <- as.numeric(t(y) %*% projector(X, V) %*% y)
  A <- t(X) %*% solve(V) %*% X
  -0.5 * (nu * log(rss / nu) + as.numeric(determinant(V)$modulus) + as.numeric(determinant(A)$modulus))
}
covariance <- function(X, share, mu, theta) solve(t(X) %*% diag(1 / (share * (theta[1] + theta[2] * mu^2))) %*% X)
# degrees of freedom with derivatives by differences
satterthwaite <- function(f, theta, W) {
  g <- sapply(1:2, function(k) { h <- 1e-5 * theta[k]; e <- c(0, 0); e[k] <- h
    (8 * (f(theta + e) - f(theta - e)) - (f(theta + 2 * e) - f(theta - 2 * e))) / (12 * h) })
  2 * f(theta)^2 / as.numeric(t(g) %*% W %*% g)
}
x <- rep(c(0.5, 1, 2, 5, 10, 20), each = 3)
y <- c(1.16, 1.42, 1.25, 2.31, 2.19, 2.44, 4.22, 4.60, 4.41, 10.82, 10.15, 10.61, 20.3, 21.6, 20.7, 42.9, 40.6, 41.1)
curved <- y - 0.004 * x^2
uneven <- c(1, .5, 1, 1, 1, 2, 1, 1, 1, 1, .5, 1, 2, 1, 1, 1, 1, 1)
studies <- list(list("line", y, rep(1, 18)), list("origin", y, rep(1, 18)), list("quadratic", curved, rep(1, 18)),
                list("line", y, uneven))
for (s in studies) {
  X <- terms[[s[[1]]]](x); share <- s[[3]]
  case <- paste0("two-component-", s[[1]], if (any(share != 1)) "-uneven" else "")
  r <- reml(X, s[[2]], share, c(0.01, 0.001))
  stopifnot(r$change < 1e-12, r$theta > 0)
  C <- covariance(X, share, r$mu, r$theta)
  out(case, "constant", r$theta[1]); out(case, "proportional", r$theta[2])
  for (k in seq_along(r$beta)) {
    out(case, paste0("coefficient-", k - 1), r$beta[k])
    for (l in k:length(r$beta)) out(case, paste0("covariance-", k - 1, l - 1), C[k, l])
    out(case, paste0("coefficient-freedom-", k - 1),
        satterthwaite(function(th) covariance(X, share, r$mu, th)[k, k], r$theta, r$W))
  }
  for (k in 1:2) for (l in k:2) out(case, paste0("part-covariance-", k - 1, l - 1), r$W[k, l])
  V <- diag(share * (r$theta[1] + r$theta[2] * r$mu^2))
  out(case, "likelihood", loglik(X, s[[2]], V))
  out(case, "likelihood-constant", loglik(X, s[[2]], diag(share)))
  out(case, "likelihood-proportional", loglik(X, s[[2]], diag(share * r$mu^2)))
  gain <- 2 * (loglik(X, s[[2]], V) - loglik(X, s[[2]], diag(share)))
  out(case, "growth-p", pchisq(gain, 1, lower.tail = FALSE) / 2)
  for (x0 in c(0, 0.7, 15)) {
    c0 <- terms[[s[[1]]]](x0); m0 <- as.numeric(c0 %*% r$beta)
    out(case, paste0("prediction-freedom-", x0), satterthwaite(function(th)
      0.5 * (th[1] + th[2] * m0^2) + as.numeric(c0 %*% covariance(X, share, r$mu, th) %*% t(c0)), r$theta, r$W))
    out(case, paste0("scatter-freedom-", x0), satterthwaite(function(th) th[1] + th[2] * m0^2, r$theta, r$W))
  }
  # average over laws: the three laws weigh the same beforehand, ln r by the root of its information
  if (any(share != 1) || s[[1]] == "origin") next
  n <- 18; nu <- n - ncol(X)
  lo <- log(1e-4 / max(r$mu)^2); hi <- log(1e4 / min(r$mu)^2)
  node <- function(v, d) {
    V <- diag(v); P <- projector(X, V); D <- P %*% diag(v * d)
    list(v = v, beta = gls(X, s[[2]], V), C = solve(t(X) %*% solve(V) %*% X), l = loglik(X, s[[2]], V),
         s2 = as.numeric(t(s[[2]]) %*% P %*% s[[2]]) / nu,
         prior = sqrt(max(0, sum(diag(D %*% D)) - sum(diag(D))^2 / nu)))
  }
  width <- function(step, c0, part) {
    psi <- seq(lo, hi, length.out = ceiling((hi - lo) / step) + 1)
    nodes <- lapply(exp(psi), function(q) c(node(1 + q * r$mu^2, q * r$mu^2 / (1 + q * r$mu^2)), r = q))
    prior <- sapply(nodes, `[[`, "prior"); prior <- prior / sum(prior)
    nodes <- c(nodes, list(c(node(rep(1, n), 0), r = 0)), list(c(node(r$mu^2, 0), r = Inf)))
    w <- c(prior, 1, 1) * exp(sapply(nodes, `[[`, "l")); w <- w / sum(w)
    centre <- sum(c0 * r$beta)
    place <- sapply(nodes, function(k) sum(c0 * k$beta)) - centre
    rel <- sapply(nodes, function(k) { m <- sum(c0 * k$beta); if (is.infinite(k$r)) m^2 else 1 + k$r * m^2 })
    sd <- sqrt(sapply(nodes, `[[`, "s2") * (part * rel + sapply(nodes, function(k) as.numeric(c0 %*% k$C %*% c0))))
    uniroot(function(h) sum(w * (pt((h - place) / sd, nu) - pt((-h - place) / sd, nu))) - 0.95, c(0, 100), tol = 1e-12)$root
  }
  step <- min(0.5, 2 / sqrt(nu))
  for (x0 in c(0.7, 15)) {
    out(case, paste0("average-half-width-", x0), width(step, as.numeric(terms[[s[[1]]]](x0)), 1))
    out(case, paste0("average-half-width-fine-", x0), width(step / 20, as.numeric(terms[[s[[1]]]](x0)), 1))
  }
  slope <- c(0, 1, 0)[seq_len(ncol(X))]
  out(case, "average-half-width-slope", width(step, slope, 0))
}

# --- noncentral t --------------------------------------------------------------------------------------------
for (df in c(1, 3.7, 16, 200)) for (ncp in c(-1.5, 0, 2, 9)) for (q in c(-1, 0.3, 2.1, 11))
  out("noncentral-t", paste(df, ncp, q, sep = "/"), suppressWarnings(pt(q, df, ncp)))
for (df in c(2, 4, 13, 60.5)) for (pair in list(c(.05, .05), c(.01, .05), c(.05, .2))) {
  t0 <- qt(1 - pair[1], df)
  out("noncentral-shift", paste(df, pair[1], pair[2], sep = "/"),
      uniroot(function(d) pt(t0, df, d) - pair[2], c(0, 60), tol = 1e-13)$root)
}

# --- limits of a line with both parts of scatter; a sample's share 1/2 -----------------------------------------
r <- reml(terms$line(x), y, rep(1, 18), c(0.01, 0.001))
C <- covariance(terms$line(x), rep(1, 18), r$mu, r$theta)
a <- r$beta[1]; b <- r$beta[2]
s2 <- function(z) r$theta[1] + r$theta[2] * (a + b * z)^2
nu <- function(z) satterthwaite(function(th) 0.5 * (th[1] + th[2] * (a + b * z)^2) +
  as.numeric(c(1, z) %*% covariance(terms$line(x), rep(1, 18), r$mu, th) %*% c(1, z)), r$theta, r$W)
V <- function(z) 0.5 * s2(z) + C[1, 1] + 2 * z * C[1, 2] + z^2 * C[2, 2]
crit <- qt(0.95, nu(0)) * sqrt(V(0))
out("limits", "critical-value", crit / b)
out("limits", "detectable", uniroot(function(z) { sd <- sqrt(0.5 * s2(z) + C[1, 1]); pt(crit / sd, nu(0), b * z / sd) - 0.05 },
  c(crit / b, 10), tol = 1e-13)$root)
out("limits", "hubaux-vos", uniroot(function(z) crit + qt(0.95, nu(z)) * sqrt(V(z)) - b * z, c(crit / b, 10), tol = 1e-13)$root)
out("limits", "scatter-3.3", 3.3 * sqrt(s2(0)) / b)
out("limits", "intercept-10", 10 * sqrt(C[1, 1]) / b)
# what a response does not contradict, by roots
for (y0 in c(1.3, 12)) {
  g <- function(z) (y0 - a - b * z)^2 - 2.3^2 * V(z)
  x0 <- (y0 - a) / b
  out("limits", paste0("inverse-", y0, "-lower"), uniroot(g, c(x0 - 2, x0), tol = 1e-14)$root)
  out("limits", paste0("inverse-", y0, "-upper"), uniroot(g, c(x0, x0 + 4), tol = 1e-14)$root)
}

# --- quadratic calibration and line through 0, constant scatter, by lm() and roots ------------------------------
q <- lm(curved ~ x + I(x^2)); v <- vcov(q); k <- qt(0.975, 15)
f <- function(z) sum(coef(q) * c(1, z, z^2))
for (y0 in c(6, 35)) {
  x0 <- uniroot(function(z) f(z) - y0, c(0, 25), tol = 1e-14)$root
  g <- function(z) (y0 - f(z))^2 - k^2 * (summary(q)$sigma^2 / 2 + as.numeric(c(1, z, z^2) %*% v %*% c(1, z, z^2)))
  out("quadratic", paste0("amount-", y0), x0)
  out("quadratic", paste0("lower-", y0), uniroot(g, c(x0 - 5, x0), tol = 1e-14)$root)
  out("quadratic", paste0("upper-", y0), uniroot(g, c(x0, x0 + 5), tol = 1e-14)$root)
}
o <- lm(y ~ 0 + x); k <- qt(0.975, 17)
g <- function(z) (12 - coef(o) * z)^2 - k^2 * (summary(o)$sigma^2 + z^2 * vcov(o)[1, 1])
out("origin", "lower", uniroot(g, c(3, 12 / coef(o)), tol = 1e-14)$root)
out("origin", "upper", uniroot(g, c(12 / coef(o), 9), tol = 1e-14)$root)

# --- checks of a fit ----------------------------------------------------------------------------------------------
w <- 1 / (r$theta[1] + r$theta[2] * r$mu^2)
l <- lm(y ~ x, weights = w)
anv <- anova(l, lm(y ~ factor(x), weights = w))
out("checks", "lack-of-fit-F", anv$F[2]); out("checks", "lack-of-fit-p", anv$"Pr(>F)"[2])
anv <- anova(l, lm(y ~ x + I(x^2), weights = w))
out("checks", "curvature-F", anv$F[2]); out("checks", "curvature-p", anv$"Pr(>F)"[2])
for (i in c(1, 8, 16)) {
  out("checks", paste0("leverage-", i), hatvalues(l)[[i]])
  out("checks", paste0("influence-", i), cooks.distance(l)[[i]])
}
res <- residuals(l) * sqrt(w)
ct <- cor(rank(res), 1:18)
out("checks", "spearman", ct)
out("checks", "von-neumann", (sum(diff(res)^2) / 17) / (sum((res - mean(res))^2) / 18))
