#!/usr/bin/env python3
"""Table (Markdown, on standard output) and picture of the results of study.py."""

import argparse
import json

import numpy as np
from scipy.stats import chi2

GOALS_UM = {"punched": 10, "other": 25}


def numbers(cell):
    """rms of dx, dy (um) and rotation (mrad), mean error (um), and how often the truth lay within
    the stated uncertainty: each of dx, dy, rotation within its own 68 and 95 % interval, and the
    three together within the ellipsoids."""
    error = np.array([r["error"] for r in cell["rows"]]).reshape(-1, 6)[:, :3]
    covariance = np.array([r["covariance"] for r in cell["rows"]]).reshape(-1, 6, 6)[:, :3, :3]
    sd = np.sqrt(np.diagonal(covariance, axis1=1, axis2=2))
    z = np.abs(error / sd)
    together = np.einsum("ni,nij,nj->n", error, np.linalg.inv(covariance), error)
    return {"n": len(error), "rms": np.sqrt((error**2).mean(0)) * [1000, 1000, 1],
            "mean": error.mean(0)[:2] * 1000, "sd": np.sqrt((sd**2).mean(0)) * [1000, 1000, 1],
            "c68": (z < 1).mean(0), "c95": (z < 1.96).mean(0),
            "t68": (together < chi2.ppf(0.6827, 3)).mean(),
            "t95": (together < chi2.ppf(0.95, 3)).mean()}


def table(cells):
    lines = ["| cell | sheets | rms dx, dy um | rotation mrad | mean dx, dy um | stated dx, dy um | "
             "68 %: dx, dy, rot. | 95 %: dx, dy, rot. | together 68, 95 % | refused, warned |",
             "|---|---|---|---|---|---|---|---|---|---|"]
    for cell in cells:
        n = numbers(cell)
        percent = lambda values: ", ".join(f"{100 * v:.0f}" for v in np.atleast_1d(values))
        um = lambda values: ", ".join(f"{v:.1f}" for v in values[:2])
        said = {**cell["refused"], **cell["warned"]}
        lines.append(f"| {cell['name']} | {n['n']} of {cell['sheets']} | {um(n['rms'])} | "
                     f"{n['rms'][2]:.3f} | {um(n['mean'])} | {um(n['sd'])} | {percent(n['c68'])} | "
                     f"{percent(n['c95'])} | {percent([n['t68'], n['t95']])} | "
                     + (", ".join(f"{k} {v}" for k, v in said.items()) or "-") + " |")
    return "\n".join(lines)


def picture(cells, path):
    import matplotlib
    matplotlib.use("Agg")
    import matplotlib.pyplot as plt
    found = [numbers(c) for c in cells]
    at = np.arange(len(cells))[::-1]
    figure, (left, right) = plt.subplots(1, 2, figsize=(10, 0.3 * len(cells) + 1.2), sharey=True)
    for axis, mark in ((0, "o"), (1, "s")):
        left.plot([n["rms"][axis] for n in found], at, mark, ms=4, label=("dx", "dy")[axis])
    left.set_yticks(at, [c["name"] for c in cells], fontsize=7)
    left.axvline(GOALS_UM["punched"], color="grey", lw=0.8)
    left.axvline(GOALS_UM["other"], color="grey", lw=0.8, ls="--")
    left.set_xlabel("rms error, um (goals: line, punched holes; dashed, others)", fontsize=8)
    left.legend(fontsize=7)
    for axis, mark in ((0, "o"), (1, "s"), (2, "^")):
        right.plot([100 * n["c95"][axis] for n in found], at, mark, ms=4, color=f"C{axis}",
                   label=("dx", "dy", "rotation")[axis])
        right.plot([100 * n["c68"][axis] for n in found], at, mark, ms=4, color=f"C{axis}", mfc="w")
    for level in (68, 95):
        right.axvline(level, color="grey", lw=0.8)
    right.set_xlabel("truth within the stated 68 % (open) and 95 % (full), %", fontsize=8)
    right.legend(fontsize=7)
    for axes in (left, right):
        axes.grid(axis="y", lw=0.3)
    figure.tight_layout()
    figure.savefig(path, dpi=90)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("results")
    parser.add_argument("picture", nargs="?")
    args = parser.parse_args()
    with open(args.results) as f:
        cells = json.load(f)
    print(table(cells))
    if args.picture:
        picture(cells, args.picture)


if __name__ == "__main__":
    main()
