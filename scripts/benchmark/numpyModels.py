"""The rigid-wheel integrals in NumPy and the pull-slip fits in SciPy, for benchmarkModels.ts.
Usage: numpyModels.py TASKS; prints {"seconds": ..., "values": ...} as JSON."""
import json
import math
import sys
import time

import numpy as np
from scipy.optimize import curve_fit

x, w = np.polynomial.legendre.leggauss(16)
u = (x + 1) / 2
squares = u**2
weights = (w / 2) * (2 * u)


def forces(wheel, soil, slip, z):
    """Load, pull, torque: 16 Gauss nodes on each side of the greatest stress. Scalars, or soil's entries and z as columns (N, 1)."""
    r, b = wheel
    k, n0, n1, c, phi, modulus, c1, c2, rebound = soil
    cos_entry = 1 - z / r
    entry = np.arccos(cos_entry)
    sin_entry = np.sin(entry)
    exit_ = -np.arccos(1 - rebound * z / r)
    greatest = np.minimum(entry, np.maximum(0, (c1 + c2 * slip) * entry))
    ahead = entry - greatest
    behind = greatest - exit_
    n = n0 + n1 * abs(slip)
    ratio = 1 - slip if slip >= 0 else 1 / (1 + slip)
    front = entry - ahead * squares
    rear = exit_ + behind * squares
    cos_front, sin_front = np.cos(front), np.sin(front)
    cos_rear, sin_rear = np.cos(rear), np.sin(rear)
    pressure = k * r**n * np.maximum(0, cos_front - cos_entry) ** n
    strength = c + pressure * np.tan(phi)
    j_front = r * (entry - front - ratio * (sin_entry - sin_front))
    j_rear = r * (entry - rear - ratio * (sin_entry - sin_rear))
    shear_front = strength * np.sign(j_front) * -np.expm1(-np.abs(j_front) / modulus)
    shear_rear = strength * np.sign(j_rear) * -np.expm1(-np.abs(j_rear) / modulus)
    wa, wb = weights * ahead, weights * behind
    load = (wa * (pressure * cos_front + shear_front * sin_front) + wb * (pressure * cos_rear + shear_rear * sin_rear)).sum(-1)
    pull = (wa * (shear_front * cos_front - pressure * sin_front) + wb * (shear_rear * cos_rear - pressure * sin_rear)).sum(-1)
    torque = (wa * shear_front + wb * shear_rear).sum(-1)
    return r * b * load, r * b * pull, r * r * b * torque


def solved(wheel, soil, slip, load):
    """Sinkage that carries the load: secant steps in the logarithms from the closed form, as drawbar takes them."""
    r, b = wheel
    n = soil[1] + soil[2] * abs(slip)
    at = math.log((3 * load / ((3 - min(n, 2)) * b * soil[0] * math.sqrt(2 * r))) ** (1 / (n + 0.5)))
    before = None
    for _ in range(40):
        z = math.exp(at)
        found = forces(wheel, soil, slip, z)
        miss = math.log(found[0] / load)
        if abs(miss) < 1e-10:
            return z, found[1], found[2]
        slope = n + 0.5 if before is None else (miss - before[1]) / (at - before[0])
        before = (at, miss)
        at -= miss / slope
    raise RuntimeError("no balance")


def curve(s, a, b, c):
    return a * (1 - np.exp(-s / b)) - c


tasks = json.load(open(sys.argv[1]))
wheel = tasks["wheel"]
rows = [(tuple(row["soil"]), row["slip"], row["sinkageM"], row["loadN"]) for row in tasks["rows"]]
seconds, values = {}, {}


def timed(name, work):
    """The least of several passes, as for the peer: what else the machine does only adds."""
    seconds[name] = math.inf
    for _ in range(tasks["passes"]):
        started = time.perf_counter()
        values[name] = work()
        seconds[name] = min(seconds[name], time.perf_counter() - started)


timed("fixed", lambda: [forces(wheel, soil, slip, z) for soil, slip, z, _ in rows])
timed("solved", lambda: [solved(wheel, soil, slip, load) for soil, slip, _, load in rows])
draws = np.array(tasks["draws"])
columns = tuple(draws[:, j : j + 1] for j in range(9))
sinkages = np.array(tasks["drawSinkages"])[:, None]
timed("draws", lambda: np.stack(forces(wheel, columns, tasks["drawSlip"], sinkages), axis=1))
values["draws"] = values["draws"].tolist()
slip = np.array(tasks["curve"]["slip"])
pulls = np.array(tasks["curve"]["pull"])
resamples = np.array(tasks["curve"]["resamples"])
timed("fits", lambda: [curve_fit(curve, slip[pick], pulls[pick], p0=tasks["curve"]["start"])[0].tolist() for pick in resamples])
values["fixed"] = [[float(v) for v in row] for row in values["fixed"]]
values["solved"] = [[float(v) for v in row] for row in values["solved"]]
json.dump({"seconds": seconds, "values": values}, sys.stdout)
