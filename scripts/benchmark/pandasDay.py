"""The traction and drop means of a day folder with pandas and SciPy: the peer that `scripts/benchmark.ts` times drawbar against.

Straightforward on purpose: what an engineer would write for this one rig, with its constants handed over as JSON.
Usage: pandasDay.py DAY SETTINGS.json OUT.csv
"""
import json
import math
import sys

import numpy as np
import pandas as pd
from scipy.signal import filtfilt

day, settings_file, out = sys.argv[1:4]
rig = json.load(open(settings_file))
sheet = pd.read_csv(f"{day}/runs.csv", sep=";", decimal=",", encoding="utf-8-sig")
wheels = pd.read_csv(f"{day}/wheels.csv", sep=";", decimal=",", encoding="utf-8-sig").set_index("wheel")
matrix = np.array(rig["matrix"])


def frame(run):
    log = pd.read_csv(f"{day}/logs/{run}_frame.txt", sep="\t", decimal=",", encoding="latin1", skiprows=[0, 1, 2, 3, 4, 5, 7], na_values=["OVLD"])
    stamps = pd.to_datetime(log["Time"], format="%d.%m.%Y %H:%M:%S,%f")
    t = (stamps - stamps.iloc[0]).dt.total_seconds().to_numpy()
    forces = log[["B1", "B2", "B3", "B4", "B5", "B6"]].to_numpy() @ matrix.T
    before, after = t < t[0] + rig["zeroS"], t > t[-1] - rig["zeroS"]
    zero0, zero1 = forces[before].mean(axis=0), forces[after].mean(axis=0)
    t0, t1 = t[before].mean(), t[after].mean()
    forces = forces - (zero0 + np.outer((t - t0) / (t1 - t0), zero1 - zero0))
    return t, forces, log["Pot"].to_numpy(), log["Sync"].to_numpy()


def drive(run):
    log = pd.read_csv(f"{day}/logs/{run}_drive.csv")
    counts = log["Enc [count]"].to_numpy()
    jumps = np.diff(counts)
    turns = np.concatenate([[0], np.cumsum(np.where(jumps < -rig["rollover"] / 2, 1, 0) - np.where(jumps > rig["rollover"] / 2, 1, 0))])
    angle = (counts + turns * rig["rollover"]) * 2 * math.pi / rig["countsPerWheelTurn"]
    return log["t [s]"].to_numpy(), angle, log["X [mm]"].to_numpy() / 1000, log["Trig [V]"].to_numpy()


def rises(t, line):
    at = np.flatnonzero((line[:-1] < 2.5) & (line[1:] >= 2.5))
    return (t[at] + t[at + 1]) / 2


def rolling(run, diameter):
    t, forces, _, sync = frame(run)
    td, angle, x, trig = drive(run)
    a, b = rises(td, trig), rises(t, sync)
    rate = (b[-1] - b[0]) / (a[-1] - a[0])
    td = b[0] + rate * (td - a[0])
    moving = np.flatnonzero(np.abs(x - x[0]) > diameter)
    start, end = moving[0], np.flatnonzero(np.abs(x - x[-1]) > diameter)[-1]
    turns = int(abs(angle[end] - angle[start]) / (2 * math.pi))
    edges = [np.interp(abs(angle[end]) - 2 * math.pi * k, np.abs(angle[start:end + 1]), td[start:end + 1]) for k in range(turns, -1, -1)]
    inside = (td >= edges[0]) & (td < edges[-1])
    speed, omega = np.polyfit(td[inside], x[inside], 1)[0], np.polyfit(td[inside], angle[inside], 1)[0]
    means = np.array([forces[(t >= edges[k]) & (t < edges[k + 1])].mean(axis=0) for k in range(turns)])
    return speed, omega, means


def drop(run):
    log = pd.read_csv(f"{day}/logs/{run}_drop.csv", skiprows=2)
    t, a = log["t [s]"].to_numpy(), log["Acc [gn]"].to_numpy() * 9.80665
    rate = 1 / np.median(np.diff(t))
    a = a - a[t < t[0] + 0.2].mean()
    wa = math.tan(math.pi * rig["filterClass"] * 2.0775 / rate)
    den = 1 + math.sqrt(2) * wa + wa * wa
    numerator = np.array([wa * wa, 2 * wa * wa, wa * wa]) / den
    denominator = [1, 2 * (wa * wa - 1) / den, (1 - math.sqrt(2) * wa + wa * wa) / den]
    filtered = filtfilt(numerator, denominator, a)
    falling = np.flatnonzero(a < -0.5 * 9.81)[0]
    first = falling + np.flatnonzero(a[falling:] > 0.5 * 9.81)[0]
    leave = first + np.flatnonzero(a[first + 20:] < 0)[0] + 20
    v1 = -np.trapz(a[falling:first], t[falling:first])
    dv = np.trapz(a[first:leave], t[first:leave])
    return filtered.max(), v1, dv, (dv - v1) / v1


rows = []
for _, row in sheet.iterrows():
    if isinstance(row["excluded"], str) and row["excluded"].strip().lower() == "yes":
        continue
    try:
        if row["kind"] in ("traction", "hard floor"):
            wheel = wheels.loc[row["wheel"]]
            speed, omega, means = rolling(row["run"], 2 * (wheel["radius [mm]"] + wheel["lug height [mm]"]) / 1000)
            pull, load = -means[:, 0], means[:, 2]
            rows.append((row["run"], row["kind"], speed, omega, load.mean(), pull.mean(), (pull / load).mean(), pull.std(ddof=1) / math.sqrt(len(pull)), means[:, 4].mean()))
        elif row["kind"] == "drop":
            rows.append((row["run"], "drop", *drop(row["run"])))
    except Exception as error:  # a spoiled run must not stop the day here either
        rows.append((row["run"], row["kind"], str(error)))
pd.DataFrame(rows).to_csv(out, index=False)
print(f"{len(rows)} runs")
