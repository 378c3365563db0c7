# Numbers for the ladder and for the comparison of occasions, by lm(), optim(), optimize(), t.test() and power of the t test.
# The data are invented.
cat("case,quantity,value\n")
line <- function(case, quantity, value) cat(paste(case, quantity, format(value, digits = 17), sep = ","), "\n", sep = "")

b <- c(125.7, 150.8, 174.2, 216.3, 253.6, 286.9, 316.7, 343.8, 368.6, 391.3, 412.2, 431.6, 449.7, 465.7, 482, 497)
y <- c(0.004, -0.006, 0.009, 0.001, -0.008, 0.005, 0.002, -0.004, -0.011, -0.015, -0.034, -0.041, -0.068, -0.079, -0.112, -0.121)
aicc <- function(s, p, n) { k <- p + 1; n * log(s / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1) }
n <- length(y)
for (m in list(list("constant", lm(y ~ 1), 1), list("line", lm(y ~ I(b / 100)), 2))) {
  s <- sum(residuals(m[[2]])^2)
  line(m[[1]], "squares", s); line(m[[1]], "criterion", aicc(s, m[[3]], n))
}
l <- lm(y ~ I(b / 100))
line("line", "slope", coef(l)[[2]]); line("line", "slope-u", summary(l)$coefficients[2, 2])

# hinge: the onset by optimize() between all neighbours
hs <- function(t) sum(residuals(lm(y ~ pmax(0, (b - t) / 100)))^2)
best <- NULL
for (i in 2:(n - 4)) { o <- optimize(hs, c(b[i], b[i + 1]), tol = 1e-10); if (is.null(best) || o$objective < best$objective) best <- o }
line("hinge", "squares", best$objective); line("hinge", "onset", best$minimum)
line("hinge", "criterion", aicc(best$objective, 3, n))
cut <- best$objective * (1 + qf(0.95, 1, n - 3) / (n - 3))
line("hinge", "onset-lower", uniroot(function(t) hs(t) - cut, c(b[2], best$minimum), tol = 1e-10)$root)
line("hinge", "onset-upper", uniroot(function(t) hs(t) - cut, c(best$minimum, b[n - 3]), tol = 1e-10)$root)

# logistic: midpoint and log width by optim(), level and change by lm(); covariance from the derivatives
inner <- function(z) lm(y ~ I(1 / (1 + exp(-(b - z[1]) / exp(z[2])))))
o <- optim(c(440, log(40)), function(z) sum(residuals(inner(z))^2), control = list(reltol = 1e-15, maxit = 5000))
o <- optim(o$par, function(z) sum(residuals(inner(z))^2), control = list(reltol = 1e-16, maxit = 5000))
s <- o$value; p <- list(a = coef(inner(o$par))[[1]], c = coef(inner(o$par))[[2]], m = o$par[1], w = exp(o$par[2]))
line("logistic", "squares", s); line("logistic", "criterion", aicc(s, 4, n))
gr <- function(x) { e <- 1 / (1 + exp(-(x - p$m) / p$w)); c(1, e, -p$c * e * (1 - e) / p$w, -p$c * e * (1 - e) * (x - p$m) / p$w^2) }
J <- t(sapply(b, gr)); v <- s / (n - 4) * solve(crossprod(J), tol = 1e-30)
val <- function(x) p$a + p$c / (1 + exp(-(x - p$m) / p$w))
d <- gr(220) - gr(343.8)
line("logistic", "difference", val(220) - val(343.8))
line("logistic", "difference-u", sqrt(as.numeric(d %*% v %*% d)))

# cubic
q <- lm(y ~ b + I(b^2) + I(b^3)); x <- cbind(1, b, b^2, b^3)
q2 <- lm(y ~ poly(b, 3)); pr <- function(t) predict(q2, data.frame(b = t))
P <- poly(b, 3); d <- cbind(1, predict(P, 220)) - cbind(1, predict(P, 343.8))
line("cubic", "difference", as.numeric(pr(220) - pr(343.8))); line("cubic", "difference-variance", as.numeric(d %*% vcov(q2) %*% t(d)))

# two occasions, Welch and two one-sided tests
before <- c(7.012, 7.021, 6.998, 7.034, 7.009, 7.015); after <- c(6.991, 7.003, 6.972, 6.988, 7.011)
w <- t.test(after, before)
line("welch", "change", unname(w$estimate[1] - w$estimate[2])); line("welch", "u", unname(w$stderr)); line("welch", "df", unname(w$parameter))
line("welch", "p", max(t.test(after, before, mu = log(0.95), alternative = "greater")$p.value, t.test(after, before, mu = log(1.05), alternative = "less")$p.value))
# power: 1 - both misses, by the noncentral t
pw <- function(sd, n, m) { u <- sd * sqrt(2 / n); k <- qt(0.95, 2 * n - 2); 1 - pt(k, 2 * n - 2, ncp = -log(1 - m) / u) - pt(k, 2 * n - 2, ncp = log(1 + m) / u) }
line("power", "n5", pw(0.02, 5, 0.05)); line("power", "n6", pw(0.02, 6, 0.05))
line("power", "needed", min(which(sapply(2:200, function(k) pw(0.02, k, 0.05)) >= 0.9)) + 1)
