#!/usr/bin/env python3
"""Accuracy of `versolay measure` on this simulator: see README.md. Results go to a JSON file, cell
by cell, so that a run can be stopped and taken up again."""

import argparse
import json
import os
import re
import shutil
import subprocess
import tempfile
import time

import numpy as np

import cells
import frames
import simulate


def measure(versolay, files, options, folder):
    """The readings of a run, and why files were refused."""
    readings = os.path.join(folder, "readings.json")
    done = subprocess.run([versolay, "measure", *files, "--out", readings, "--force", "--quiet",
                           *options], capture_output=True, text=True)
    if done.returncode == 2:
        raise RuntimeError(done.stderr)
    if done.returncode == 1 and not os.path.exists(readings):
        return {"sheets": [], "rejected": [{"code": "all", "message": done.stderr}]}
    with open(readings) as f:
        return json.load(f)


def run_cell(args, name, changes, options, geometry, covers):
    settings = simulate.Settings().varied(**{"scanner__dpi": args.dpi, **changes})
    rows, refused, warned = [], {}, {}
    runs = args.sheets // (len(covers) // 2)
    with tempfile.TemporaryDirectory(dir=args.work) as folder:
        for files, truths in simulate.make_runs(settings, geometry, covers, runs, folder, args.seed):
            found = measure(args.versolay, files, options, folder)
            for reading in found["sheets"]:
                value = np.array([reading["registration"][k] for k in frames.KEYS])
                error = value - np.array(truths[reading["sheet"]])
                rows.append({"error": error.tolist(), "covariance": reading["covariance"]})
                for warning in reading["warnings"]:
                    warned[warning["code"]] = warned.get(warning["code"], 0) + 1
            for entry in found["rejected"]:
                refused[entry["code"]] = refused.get(entry["code"], 0) + 1
    return {"name": name, "sheets": runs * len(covers) // 2, "rows": rows, "refused": refused,
            "warned": warned}


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("versolay", help="the program to be judged")
    parser.add_argument("results", help="JSON file; cells that it holds already are not run again")
    parser.add_argument("--work", default=tempfile.gettempdir(), help="folder for scans and caches")
    parser.add_argument("--paper", default="200x220mm")
    parser.add_argument("--turn", default="long-edge")
    parser.add_argument("--dpi", type=int, default=150, help="where a cell does not say")
    parser.add_argument("--sheets", type=int, default=200, help="in each cell")
    parser.add_argument("--designs", type=int, default=4, help="numbered sheets, printed repeatedly")
    parser.add_argument("--only", default="", help="cells whose names match this expression")
    parser.add_argument("--seed", type=int, default=1)
    args = parser.parse_args()

    os.makedirs(args.work, exist_ok=True)
    base = os.path.join(args.work, f"target-{args.paper}-{args.turn}-{args.designs}")
    if not os.path.exists(base + ".json"):
        subprocess.run([args.versolay, "target", "--paper", args.paper, "--turn", args.turn,
                        "--sheets", str(args.designs), "--run", "TEST", "--out", base + ".pdf",
                        "--geometry", base + ".json", "--quiet", "--force"], check=True)
    geometry = simulate.geometry_of(base + ".json")
    covers = simulate.covers(base + ".pdf", 2 * args.designs, base + "-pages")
    results = []
    if os.path.exists(args.results):
        with open(args.results) as f:
            results = json.load(f)
    for name, (changes, options) in cells.CELLS.items():
        if not re.search(args.only, name) or any(r["name"] == name for r in results):
            continue
        start = time.process_time()
        cell = run_cell(args, name, changes, options, geometry, covers)
        results.append(cell)
        with open(args.results + ".part", "w") as f:
            json.dump(results, f)
        shutil.move(args.results + ".part", args.results)
        error = np.array([r["error"] for r in cell["rows"]]).reshape(-1, 6)
        z = error / np.sqrt([np.diag(r["covariance"]) for r in cell["rows"]]).reshape(-1, 6)
        rms = lambda a: np.sqrt(np.mean(np.square(a), axis=0)) if len(a) else np.full(6, np.nan)
        print(name, f"n={len(error)}", "rms", rms(error).round(4), "mean", error.mean(0).round(4),
              "z", rms(z).round(2), cell["refused"], cell["warned"],
              f"{time.process_time() - start:.0f} s", flush=True)


if __name__ == "__main__":
    main()
