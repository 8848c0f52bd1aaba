"""Monte Carlo of a truck's adjustment in numpy, for comparison: the same bench, the same rule for each draw, written
from the statics alone. Arguments: bench as JSON, number of draws, start of the random numbers. Prints one line of JSON."""

import json
import sys
import time

import numpy as np
from numpy import arctan, arctan2, cos, hypot, sin

CHUNK = 5_000
LIMIT = 1e-3


class Problem:
    def __init__(self, bench):
        self.start = []
        self.scale = []
        self.names = {}
        # Indices, prediction from their columns, readings.
        self.observations = []
        self.build(bench)

    def unknown(self, name, start, scale):
        if name not in self.names:
            self.names[name] = len(self.start)
            self.start.append(start)
            self.scale.append(scale)
        return name

    def observe(self, names, predict, readings):
        self.observations.append(([self.names[name] for name in names], predict, readings))

    def build(self, bench):
        d = bench["dimensions"]
        for name, start in (("x", d["wheelbase"]["value"] / 2), ("y", 0.0), ("z", 0.09)):
            self.unknown(name, start, 0.01)
        self.unknown("mass", 2.5, 0.05)
        for name, scale in (("scaleZero", 0.05), ("rulerZero", 0.01), ("levelZero", 0.01)):
            zero = bench["instruments"][name]
            self.unknown(name, zero["value"], scale)
            self.observe([name], lambda v: [v], [zero])
        self.observe(["y"], lambda v: [v], [bench["lateral"]])
        for name in ("wheelbase", "frontTrack", "rearTrack", "frontTireRadius", "rearTireRadius"):
            self.unknown(name, d[name]["value"], 0.01)
            self.observe([name, "rulerZero"], lambda v, k: [v + k], [d[name]])
        for reading in bench["readings"]:
            getattr(self, reading["kind"].replace(" ", "_"))(reading, bench)

    def total_mass(self, r, _):
        self.observe(["mass", "scaleZero"], lambda m, s: [m + s], [r["load"]])

    def axle_scales(self, r, _):
        def loads(m, x, L, s):
            front = m * x / L
            return [front + s, m - front + s]

        self.observe(["mass", "x", "wheelbase", "scaleZero"], loads, [r["front"], r["rear"]])

    def wheel_scales(self, r, _):
        four = [r[key] for key in ("frontLeft", "frontRight", "rearLeft", "rearRight")]
        twist = self.unknown(r["id"] + " twist", (four[0]["value"] - four[1]["value"]) / 2, 0.05)

        def loads(m, x, y, L, tf, tr, a, s):
            front = m * x / L / 2
            rear = m / 2 - front
            c = (m * y - tf * a) / tr
            return [front + a + s, front - a + s, rear + c + s, rear - c + s]

        names = ["mass", "x", "y", "wheelbase", "frontTrack", "rearTrack", twist, "scaleZero"]
        self.observe(names, loads, four)

    def axle_lift(self, r, _):
        sign = 1 if r["raised"] == "front" else -1
        lift = r["lift"]
        slope = self.unknown(r["id"] + " slope", 0.4, 0.01)
        if lift["by"] == "angle":
            self.observe([slope, "levelZero"], lambda t, b: [t + b], [lift["angle"]])
        else:
            self.observe(
                [slope, "wheelbase", "frontTireRadius", "rearTireRadius", "rulerZero"],
                lambda t, L, rf, rr, k: [L * sin(t) + sign * (rf - rr) * (cos(t) - 1) + k],
                [lift["rise"]],
            )

        def load(m, x, z, L, rf, rr, t, s):
            nose = sign * t
            share = (x * cos(nose) - (z - rr) * sin(nose)) / (L * cos(nose) - (rf - rr) * sin(nose))
            return [m * (share if r["scaleUnder"] == "front" else 1 - share) + s]

        names = ["mass", "x", "z", "wheelbase", "frontTireRadius", "rearTireRadius", slope, "scaleZero"]
        self.observe(names, load, [r["load"]])

    def hang(self, r, bench):
        first, second = {"side": "xz", "rear": "yz", "front": "yz", "top": "xy"}[r["view"]]
        hook = next(each for each in bench["hooks"] if each["id"] == r["hook"])
        at = []
        for axis in (first, second):
            name = f"hook {r['hook']} {axis}"
            if name not in self.names:
                self.unknown(name, hook[axis]["value"], 0.01)
                self.observe([name, "rulerZero"], lambda v, k: [v + k], [hook[axis]])
            at.append(name)
        string = r["string"]
        if string["by"] == "angle":
            self.observe(
                [first, second, *at, "levelZero"],
                lambda a, b, p, q, level: [arctan2(a - p, q - b) + level],
                [string["angle"]],
            )
            return
        way = np.array([string["first"]["value"] - hook[first]["value"], string["second"]["value"] - hook[second]["value"]])
        along = self.unknown(r["id"] + " along", hypot(*way), 0.01)

        def point(a, b, p, q, far, k):
            by = far / hypot(a - p, b - q)
            return [p + by * (a - p) + k, q + by * (b - q) + k]

        self.observe([first, second, *at, along, "rulerZero"], point, [string["first"], string["second"]])

    def tilt(self, r, bench):
        if r["toward"] == "nose up":
            self.observe(["x", "z", "levelZero"], lambda x, z, b: [arctan(x / z) + b], [r["angle"]])
        elif r["toward"] == "nose down":
            self.observe(
                ["wheelbase", "x", "z", "levelZero"], lambda L, x, z, b: [arctan((L - x) / z) + b], [r["angle"]]
            )
        else:
            half = bench["dimensions"]["treadWidth"]["value"] / 2
            if "tip line" not in self.names:
                self.unknown("tip line", half / 2, 0.01)
                prior = {"value": half / 2, "u": half / 2 / np.sqrt(3), "law": "rectangular"}
                self.observe(["tip line"], lambda v: [v], [prior])
            sign = -1 if r["toward"] == "left" else 1

            def angle(x, y, z, L, tf, tr, e, b):
                return [arctan((tr / 2 + (tf - tr) / 2 * x / L + e + sign * y) / z) + b]

            names = ["x", "y", "z", "wheelbase", "frontTrack", "rearTrack", "tip line", "levelZero"]
            self.observe(names, angle, [r["angle"]])

    def balance(self, r, _):
        axis = "x" if r["edge"] == "across" else "y"
        self.observe([axis, "rulerZero"], lambda v, k: [v + k], [r["place"]])


def pull(problem, at, read, weights):
    """J' W (read - predicted), one column a draw; slopes by central differences, each prediction by its own unknowns."""
    slope = np.zeros_like(at)
    row = 0
    for depends, predict, readings in problem.observations:
        own = slice(row, row + len(readings))
        columns = [at[index] for index in depends]
        pulled = [w * (y - f) for w, y, f in zip(weights[own], read[own], predict(*columns))]
        for k, index in enumerate(depends):
            step = problem.scale[index] / 1e4
            above = predict(*columns[:k], columns[k] + step, *columns[k + 1 :])
            below = predict(*columns[:k], columns[k] - step, *columns[k + 1 :])
            for p, a, b in zip(pulled, above, below):
                slope[index] += (a - b) / (2 * step) * p
        row = own.stop
    return slope


def jacobian(problem, at):
    rows = []
    for depends, predict, readings in problem.observations:
        block = np.zeros((len(readings), len(at)))
        for k, index in enumerate(depends):
            step = problem.scale[index] / 1e4
            columns = [at[i] for i in depends]
            above = predict(*columns[:k], columns[k] + step, *columns[k + 1 :])
            below = predict(*columns[:k], columns[k] - step, *columns[k + 1 :])
            block[:, index] = [(a - b) / (2 * step) for a, b in zip(above, below)]
        rows.append(block)
    return np.vstack(rows)


def main(path, count, start):
    with open(path, encoding="utf8") as file:
        problem = Problem(json.load(file))
    readings = [each for _, _, group in problem.observations for each in group]
    values = np.array([each["value"] for each in readings])
    u = np.array([each["u"] for each in readings])
    limits = np.array([each.get("law") == "rectangular" for each in readings])
    weights = 1 / u**2

    at = np.array(problem.start)
    for _ in range(20):
        J = jacobian(problem, at)
        covariance = np.linalg.inv(J.T @ (weights[:, None] * J))
        predicted = np.concatenate([predict(*at[depends]) for depends, predict, _ in problem.observations])
        at = at + covariance @ (J.T @ (weights * (values - predicted)))
    own = np.sqrt(np.diag(covariance))
    gain = covariance @ (J.T * weights)

    random = np.random.default_rng(start)
    wanted = [problem.names[name] for name in ("x", "y", "z")]
    found = []
    began = time.process_time()
    for first in range(0, count, CHUNK):
        size = min(CHUNK, count - first)
        errors = random.standard_normal((len(values), size))
        errors[limits] = np.sqrt(3) * random.uniform(-1, 1, (limits.sum(), size))
        read = values[:, None] + u[:, None] * errors
        draws = at[:, None] + gain @ (read - predicted[:, None])
        for _ in range(20):
            step = covariance @ pull(problem, draws, read, weights)
            draws += step
            if np.abs(step / own[:, None]).max() < LIMIT:
                break
        found.append(draws[wanted])
    seconds = time.process_time() - began
    results = np.hstack(found)
    print(
        json.dumps(
            {
                "numpy": np.__version__,
                "seconds": seconds,
                "values": at[wanted].tolist(),
                "firstOrder": own[wanted].tolist(),
                "means": results.mean(axis=1).tolist(),
                "u": results.std(axis=1, ddof=1).tolist(),
            }
        )
    )


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
