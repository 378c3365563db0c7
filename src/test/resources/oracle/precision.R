# Numbers for the tests of precision (package statistics), by base R alone: general matrix formulas, nothing reduced.
# Rscript precision.R > precision.csv
out <- function(case, quantity, value) cat(sprintf("%s,%s,%.17g\n", case, quantity, value))
cat("case,quantity,value\n")
indicator <- function(f) { f <- factor(f); m <- matrix(0, length(f), nlevels(f)); m[cbind(seq_along(f), as.integer(f))] <- 1; m }

# --- restricted likelihood, its maximum, covariance and profile, by dense matrices --------------------------------
reml <- function(case, y, terms) {
  n <- length(y)
  V <- c(lapply(terms, function(f) tcrossprod(indicator(f))), list(diag(n)))
  X <- matrix(1, n, 1)
  k <- length(V)
  m2l <- function(theta) {
    S <- Reduce(`+`, Map(`*`, V, theta))
    e <- tryCatch(chol(S), error = function(z) NULL)
    if (is.null(e)) return(1e10)
    Si <- chol2inv(e)
    A <- t(X) %*% Si %*% X
    r <- y - X %*% solve(A, t(X) %*% Si %*% y)
    2 * sum(log(diag(e))) + as.numeric(determinant(A)$modulus) + as.numeric(t(r) %*% Si %*% r)
  }
  P <- function(theta) { Si <- solve(Reduce(`+`, Map(`*`, V, theta))); Si - Si %*% X %*% solve(t(X) %*% Si %*% X, t(X) %*% Si) }
  info <- function(theta) { p <- P(theta); PV <- lapply(V, function(v) p %*% v); outer(1:k, 1:k, Vectorize(function(i, j) sum(PV[[i]] * t(PV[[j]])) / 2)) }
  score <- function(theta) { p <- P(theta); py <- p %*% y; sapply(V, function(v) -sum(p * v) / 2 + as.numeric(t(py) %*% v %*% py) / 2) }
  best <- NULL
  for (s in list(rep(1, k), c(rep(0.1, k - 1), 1), c(rep(3, k - 1), 0.3))) {
    o <- optim(log(s * var(y)), function(z) m2l(exp(z)), method = "Nelder-Mead", control = list(maxit = 20000, reltol = 1e-15))
    o <- optim(o$par, function(z) m2l(exp(z)), method = "BFGS", control = list(maxit = 2000, reltol = 1e-16))
    if (is.null(best) || o$value < best$value) best <- o
  }
  theta <- exp(best$par)
  for (i in 1:200) {                                  # scoring on those above 0
    free <- theta > 1e-6 * sum(theta)
    theta[!free] <- 0
    step <- solve(info(theta)[free, free], score(theta)[free])
    theta[free] <- theta[free] + step
  }
  for (j in 1:k) out(case, paste0("variance-", j), theta[j])
  out(case, "log-likelihood", -0.5 * (m2l(theta) + (n - 1) * log(2 * pi)))
  cv <- solve(info(theta))
  for (i in 1:k) for (j in 1:i) out(case, paste0("covariance-", i, "-", j), cv[i, j])
  list(m2l = m2l, info = info, theta = theta, k = k)
}
# smallest m2l with given w'theta, over all starts
profiled <- function(fit, w, tau) {
  best <- NULL
  g <- function(z) { p <- exp(z - max(z)); p <- p / sum(p); tau * p / w }
  for (i in 1:fit$k) {
    s <- rep(-1.5, fit$k); s[i] <- 0
    o <- optim(s, function(z) fit$m2l(g(z)), method = "Nelder-Mead", control = list(maxit = 20000, reltol = 1e-14))
    o <- optim(o$par, function(z) fit$m2l(g(z)), method = "BFGS", control = list(maxit = 2000, reltol = 1e-15))
    if (is.null(best) || o$value < best$value) best <- o
  }
  list(value = best$value, theta = g(best$par))
}
sum.interval <- function(case, fit, w) {
  least <- fit$m2l(fit$theta)
  tau0 <- sum(w * fit$theta)
  excess <- function(tau, up) {
    p <- profiled(fit, w, tau)
    nu <- 2 * tau^2 / as.numeric(t(w) %*% solve(fit$info(p$theta), w))
    q <- qchisq(if (up) 0.025 else 0.975, nu) / nu
    sqrt(max(0, p$value - least)) - sqrt(nu * (q - 1 - log(q)))
  }
  out(case, "sum", tau0)
  out(case, "sum-lower", uniroot(function(t) excess(t, FALSE), tau0 * c(0.05, 0.999), tol = 1e-9 * tau0)$root)
  out(case, "sum-upper", uniroot(function(t) excess(t, TRUE), tau0 * c(1.001, 60), tol = 1e-9 * tau0)$root)
}
# --- sequential mean squares and their expectations by projections ------------------------------------------------
moments <- function(case, y, terms) {
  n <- length(y)
  V <- c(lapply(terms, function(f) tcrossprod(indicator(f))), list(diag(n)))
  proj <- function(M) { q <- qr(M, tol = 1e-9); Q <- qr.Q(q)[, seq_len(q$rank), drop = FALSE]; tcrossprod(Q) }
  M <- matrix(1, n, 1)
  Pold <- proj(M)
  k <- length(V)
  E <- matrix(0, k, k); ms <- numeric(k); L <- list()
  for (j in 1:k) {
    M <- if (j < k) cbind(M, indicator(terms[[j]])) else diag(n)
    Pnew <- proj(M)
    D <- Pnew - Pold; df <- round(sum(diag(D)))
    L[[j]] <- D / df
    ms[j] <- as.numeric(t(y) %*% D %*% y) / df
    for (i in 1:k) E[j, i] <- sum(D * V[[i]]) / df
    out(case, paste0("df-", j), df)
    out(case, paste0("ms-", j), ms[j])
    Pold <- Pnew
  }
  raw <- solve(E, ms)
  for (j in 1:k) out(case, paste0("raw-", j), raw[j])
  S <- Reduce(`+`, Map(`*`, V, pmax(raw, 0)))
  C <- outer(1:k, 1:k, Vectorize(function(i, j) 2 * sum((L[[i]] %*% S) * t(L[[j]] %*% S))))
  cv <- solve(E) %*% C %*% t(solve(E))
  for (j in 1:k) out(case, paste0("moment-variance-", j), cv[j, j])
}
# unbalanced, nested: day, preparation, injection
y <- c(10.1, 10.4, 10.2, 11.0, 11.3, 9.7, 12.1, 12.4, 12.2, 12.0, 11.5, 11.9, 13.0, 8.8, 9.1, 9.3, 9.0, 9.6, 10.7, 10.9, 11.1, 10.2, 10.0)
day <- rep(c("a", "b", "c", "d"), c(6, 7, 5, 5))
prep <- paste(day, c(1, 1, 1, 2, 2, 3, 1, 1, 1, 1, 2, 2, 3, 1, 1, 2, 2, 2, 1, 1, 2, 3, 3))
moments("precision-nested", y, list(day, prep))
f <- reml("precision-nested", y, list(day, prep))
sum.interval("precision-nested", f, c(1, 1, 1))
# unbalanced, crossed: day, analyst, day:analyst, preparation, injection (three rows lost of 4 x 2 x 2 x 2)
d <- expand.grid(i = 1:2, p = 1:2, a = 1:2, d = 1:4)[-c(3, 12, 21), ]
set <- c(99.2, 99.9, 101.3, 103.0, 102.2, 104.4, 104.9, 97.1, 97.9, 96.6, 98.8, 99.5, 100.9, 100.1, 101.8, 103.3,
         102.9, 104.6, 105.2, 106.1, 105.0, 95.9, 96.4, 97.3, 96.2, 98.4, 99.1, 97.7, 98.2)
cell <- paste(d$d, d$a)
terms <- list(d$d, d$a, cell, paste(cell, d$p))
moments("precision-crossed", set, terms)
f <- reml("precision-crossed", set, terms)
