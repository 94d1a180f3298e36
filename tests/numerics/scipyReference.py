"""Answers numbered requests with SciPy, as a general reference for the numerics.

Reads a JSON list of [name, arguments] from standard input, writes a JSON list of answers.
"""
import importlib
import json
import sys

import numpy
import scipy


class Late:
    """A part of SciPy that is loaded when first asked: scipy.stats alone takes seconds."""

    def __init__(self, name):
        self.name = name

    def __getattr__(self, attribute):
        return getattr(importlib.import_module(self.name), attribute)


signal, special, stats, optimize = Late("scipy.signal"), Late("scipy.special"), Late("scipy.stats"), Late("scipy.optimize")


def spectrum(samples):
    values = numpy.fft.rfft(samples)
    return [values.real.tolist(), values.imag.tolist()]


def butterworth_gain(order, cutoff_hz, rate_hz, frequencies_hz):
    sections = signal.butter(order, cutoff_hz, fs=rate_hz, output="sos")
    return abs(signal.sosfreqz(sections, frequencies_hz, fs=rate_hz)[1]).tolist()


def peaks(samples, prominence):
    index, properties = signal.find_peaks(samples, prominence=prominence)
    return [index.tolist(), properties["prominences"].tolist()]


def weibull_errors(lives, failed):
    """Standard errors of ln shape and ln scale and their correlation, from a numerical Hessian at SciPy's own maximum."""
    t, d = numpy.array(lives), numpy.array(failed)

    def loss(p):
        shape, scale = numpy.exp(p)
        return -(stats.weibull_min.logpdf(t[d], shape, scale=scale).sum() + stats.weibull_min.logsf(t[~d], shape, scale=scale).sum())

    best = optimize.minimize(loss, [0, numpy.log(t.mean())], method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-12, "maxiter": 4000}).x
    h, eye = 1e-4, numpy.eye(2)
    hessian = [[(loss(best + h * (a + b)) - loss(best + h * (a - b)) - loss(best - h * (a - b)) + loss(best - h * (a + b))) / (4 * h * h) for b in eye] for a in eye]
    covariance = numpy.linalg.inv(hessian)
    errors = numpy.sqrt(numpy.diag(covariance))
    return [errors[0], errors[1], covariance[0, 1] / errors[0] / errors[1]]


def shock(samples, rate_hz, frequency_hz, ratio):
    """Largest answers of a base-driven oscillator: absolute acceleration, and omega times relative displacement."""
    w = 2 * numpy.pi * frequency_hz
    # state: relative displacement and speed; the base accelerates by u
    system = ([[0, 1], [-w * w, -2 * ratio * w]], [[0], [-1]], [[-w * w, -2 * ratio * w], [w, 0]], [[0], [0]])
    times = numpy.arange(len(samples) + 2) / rate_hz
    _, during, states = signal.lsim(system, [0.0] + list(samples) + [0.0], times)
    after_times = numpy.linspace(0, 2 / frequency_hz, 8001)
    _, after, _ = signal.lsim(system, numpy.zeros_like(after_times), after_times, X0=states[-1])
    first, last = during[:-1], after
    size = abs(during[:, 0]).max()
    both = numpy.concatenate([first, last])
    return [abs(first[:, 0]).max(), abs(last[:, 0]).max(), max(0, both[:, 0].max()), max(0, -both[:, 0].min()), abs(both[:, 1]).max(), size]


def logistic(x, y, probability):
    """Intercept, slope, -2 ln L and the 95 % profile interval of the x at that probability, by general minimisers."""
    x, y = numpy.asarray(x), numpy.asarray(y)
    centre, scale = x.mean(), x.std()
    z = (x - centre) / scale
    level = numpy.log(probability / (1 - probability))

    def deviance(eta):
        return 2 * numpy.logaddexp(0, numpy.where(y > 0, -eta, eta)).sum()

    best = optimize.minimize(lambda c: deviance(c[0] + c[1] * z), [0.0, 0.0], method="BFGS", options={"gtol": 1e-10})
    a, b = best.x
    at = (level - a) / b

    def excess(place):
        inner = optimize.minimize_scalar(lambda s: deviance(s * (z - place) + level), bracket=(b, b * 1.1), tol=1e-12)
        return inner.fun - best.fun - stats.chi2.ppf(0.95, 1)

    low = optimize.brentq(excess, at - 20, at, xtol=1e-12)
    high = optimize.brentq(excess, at, at + 20, xtol=1e-12)
    return [a - b * centre / scale, b / scale, float(best.fun), centre + scale * low, centre + scale * high]


def blow(push, exponent, loss, viscous, d0, v0, speed, gravity):
    """Peak acceleration, compression, duration and restitution of one blow of a wheel."""
    def force(d, v):
        return push * max(d / d0, 0) ** exponent * (1 + loss * v / v0) + 2 * viscous * (push / d0) ** 0.5 * v

    def rate(t, y):
        return [y[1], gravity - max(0.0, force(*y))]

    def ends(t, y):
        return force(*y) if y[1] < 0 else 1.0

    ends.terminal = True
    integrate = importlib.import_module("scipy.integrate")
    solved = integrate.solve_ivp(rate, [0, 1], [0.0, speed], method="DOP853", rtol=1e-11, atol=1e-13, events=ends, dense_output=True)
    t = numpy.linspace(0, solved.t[-1], 200001)
    d, v = solved.sol(t)
    f = push * numpy.maximum(d / d0, 0) ** exponent * (1 + loss * v / v0) + 2 * viscous * (push / d0) ** 0.5 * v
    return [f.max() - gravity, d.max(), solved.t[-1], -v[-1] / speed]


def wheel_forces(wheel, soil, slip, sinkage, over=None):
    """Load, pull and torque of a rigid wheel on soil, split at the greatest stress; by adaptive quadrature where no rule is given."""
    r, b = wheel
    k, n, c, phi, modulus, c1, c2, rebound = soil
    entry = numpy.arccos(1 - sinkage / r)
    leave = -numpy.arccos(1 - rebound * sinkage / r)
    greatest = (c1 + c2 * slip) * entry
    ratio = 1 - slip if slip >= 0 else 1 / (1 + slip)

    def stresses(angle):
        behind = entry - (angle - leave) / (greatest - leave) * (entry - greatest) if greatest > leave else angle
        ahead = numpy.where(angle >= greatest, angle, behind)
        pressure = k * (r * numpy.maximum(numpy.cos(ahead) - numpy.cos(entry), 0)) ** n
        slide = r * (entry - angle - ratio * (numpy.sin(entry) - numpy.sin(angle)))
        return pressure, numpy.sign(slide) * (c + pressure * numpy.tan(phi)) * (1 - numpy.exp(-abs(slide) / modulus))

    def quad(part, low, high):
        return importlib.import_module("scipy.integrate").quad(part, low, high, epsabs=0, epsrel=1e-10, limit=200)[0]

    def total(part):
        rule = over or quad
        return sum(rule(lambda angle: part(angle, *stresses(angle)), low, high) for low, high in ((leave, greatest), (greatest, entry)) if high > low)

    return [
        float(r * b * total(lambda angle, p, t: p * numpy.cos(angle) + t * numpy.sin(angle))),
        float(r * b * total(lambda angle, p, t: t * numpy.cos(angle) - p * numpy.sin(angle))),
        float(r * r * b * total(lambda angle, p, t: t)),
    ]


def saturating_fit(x, y, start):
    """Plateau, build-up and rise by least squares, and their standard errors from the scatter."""
    found = optimize.least_squares(lambda p: p[0] * start[0] * (1 - numpy.exp(-x / (p[1] * start[1]))) + p[2] * start[2] * x - y, [1.0, 1.0, 1.0], xtol=1e-14, ftol=1e-14, gtol=1e-14)
    covariance = numpy.linalg.inv(found.jac.T @ found.jac) * 2 * found.cost / (len(x) - 3)
    return [(found.x * start).tolist(), (numpy.sqrt(numpy.diag(covariance)) * start).tolist()]


def wheel_torque_fit(wheel, soil, load, slips, torques, free):
    """Soil constants (places in `soil`) that meet the torques at that load best, by least_squares; last the root mean square of what is left."""
    nodes, weights = numpy.polynomial.legendre.leggauss(100)

    def gauss(part, low, high):
        return (high - low) / 2 * (weights * part((high - low) / 2 * nodes + (high + low) / 2)).sum()

    def misses(constants):
        values = list(soil)
        for place, value in zip(free, constants):
            values[place] = value
        sinkages = [optimize.brentq(lambda z: wheel_forces(wheel, values, slip, z, gauss)[0] - load, 1e-4, 0.6 * wheel[0], xtol=1e-10) for slip in slips]
        return numpy.array([wheel_forces(wheel, values, slip, z, gauss)[2] for slip, z in zip(slips, sinkages)]) - torques

    start = numpy.array([soil[place] for place in free])
    best = optimize.least_squares(misses, start, x_scale=start, xtol=1e-10)
    return [*best.x.tolist(), float(numpy.sqrt((best.fun ** 2).mean()))]


calls = {
    "wheel_forces": wheel_forces,
    "wheel_torque_fit": wheel_torque_fit,
    "saturating_fit": lambda x, y, start: saturating_fit(numpy.array(x), numpy.array(y), start),
    "wilcoxon": lambda x, y, exact: list(map(float, stats.wilcoxon(x, y, alternative="greater", mode="exact" if exact else "approx")[:1])) + [float(stats.wilcoxon(x, y, mode="exact" if exact else "approx").pvalue)],
    "mannwhitneyu": lambda x, y, exact: list(map(float, stats.mannwhitneyu(x, y, method="exact" if exact else "asymptotic"))),
    "studentized_range.cdf": lambda q, k, dof: stats.studentized_range.cdf(q, k, dof),
    "blow": blow,
    "logistic": logistic,
    "leggauss": lambda count: [part.tolist() for part in numpy.polynomial.legendre.leggauss(count)],
    "shock": shock,
    "weibull_errors": weibull_errors,
    "beta_median": lambda a, b: stats.beta.median(a, b),
    "norm.cdf": lambda z: stats.norm.cdf(z),
    "norm.ppf": lambda p: stats.norm.ppf(p),
    "t.cdf": lambda t, dof: stats.t.cdf(t, dof),
    "t.ppf": lambda p, dof: stats.t.ppf(p, dof),
    "ncf.cdf": lambda f, d1, d2, noncentrality: stats.ncf.cdf(f, d1, d2, noncentrality) if noncentrality > 0 else stats.f.cdf(f, d1, d2),
    "nct.cdf": lambda t, dof, noncentrality: stats.nct.cdf(t, dof, noncentrality) if noncentrality != 0 else stats.t.cdf(t, dof),
    "f.cdf": lambda f, d1, d2: stats.f.cdf(f, d1, d2),
    "f.ppf": lambda p, d1, d2: stats.f.ppf(p, d1, d2),
    "chi2.cdf": lambda x, dof: stats.chi2.cdf(x, dof),
    "chi2.ppf": lambda p, dof: stats.chi2.ppf(p, dof),
    "gammaln": lambda x: special.gammaln(x),
    "gammainc": lambda a, x: special.gammainc(a, x),
    "gammaincc": lambda a, x: special.gammaincc(a, x),
    "betainc": lambda a, b, x: special.betainc(a, b, x),
    "quantile": lambda samples, p: numpy.quantile(samples, p),
    "theilslopes": lambda y, x: list(stats.theilslopes(y, x, method="joint")[:2]),
    "svd": lambda rows: numpy.linalg.svd(rows, compute_uv=False).tolist(),
    "lstsq": lambda rows, y: numpy.linalg.lstsq(rows, y, rcond=None)[0].tolist(),
    "inverse": lambda rows: numpy.linalg.inv(rows).tolist(),
    "cholesky": lambda rows: numpy.linalg.cholesky(rows).tolist(),
    "rfft": spectrum,
    "welch": lambda x, rate, length, overlap, window, detrend, scaling: signal.welch(
        x, rate, window=window, nperseg=length, noverlap=overlap, detrend=detrend, scaling=scaling)[1].tolist(),
    "sosfiltfilt": lambda x, order, cutoff, rate: signal.sosfiltfilt(
        signal.butter(order, cutoff, fs=rate, output="sos"), x).tolist(),
    "filtfilt": lambda b, a, x, reach: signal.filtfilt(b, a, x, padlen=reach).tolist(),
    "butter": lambda order, cutoff: [part.tolist() for part in signal.butter(order, cutoff)],
    "butterworthGain": butterworth_gain,
    "find_peaks": peaks,
    "trapezoid": lambda x, y: numpy.trapz(y, x),
}

answers = []
for name, arguments in json.load(sys.stdin):
    answer = calls[name](*arguments)
    answers.append(answer if isinstance(answer, list) else float(answer))
json.dump(answers, sys.stdout)
