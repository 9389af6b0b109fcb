# Ordinary kriging by gstat (Debian's r-cran-gstat), which shares nothing with this
# program: Rscript testdata/kriging/gstat.R, in the folder of the repository. It makes the
# samples anew, and writes what gstat estimates at five places, and its variance, under
# several covariances with a sill of 1 and an error of measurement.
suppressPackageStartupMessages({library(sp); library(gstat)})
set.seed(17)
shots <- data.frame(x = round(runif(40, 0, 9), 2), y = round(runif(40, 0, 7), 2))
shots$z <- round(0.3 * sin(shots$x) + 0.2 * shots$y + rnorm(40, 0, 0.1), 3)
header <- "# made by testdata/kriging/gstat.R with gstat"
write <- function(d, name) {
  f <- file(file.path("testdata/kriging", name), "w")
  writeLines(paste(header, packageVersion("gstat")), f)
  write.csv(d, f, row.names = FALSE, quote = FALSE)
  close(f)
}
write(shots, "shots.csv")
places <- data.frame(x = c(1, 4.5, 8.8, 2.25, 12), y = c(1, 3.5, 0.2, 6.9, 9))
out <- NULL
for (smooth in 0:2) for (range in c(0.5, 2, 8)) for (nugget in c(0.05, 0.3)) {
  kappa <- smooth + 0.5
  a <- range / sqrt(2 * kappa) # Matern's law in h sqrt(2 kappa) / range
  law <- vgm(1, if (smooth == 0) "Exp" else "Mat", a, kappa = kappa, add.to = vgm(nugget, "Err", 0))
  s <- shots; coordinates(s) <- ~x+y
  p <- places; coordinates(p) <- ~x+y
  k <- krige(z ~ 1, s, p, law, debug.level = 0)
  out <- rbind(out, data.frame(smooth, range, nugget, places, estimate = signif(k$var1.pred, 9), variance = signif(k$var1.var, 9)))
}
write(out, "gstat.csv")
