#!/usr/bin/env python3
"""How well `versolay measure` reads the lay of further passes of sheets that are fed several times:
rms of (read - true) against the first pass, in that side's view, and over what was stated."""

import argparse
import json
import os
import subprocess
import tempfile

import numpy as np

import frames
import printed_page
import scanner as flatbed
import sheet as paper_sheet
import simulate


def lay(first, other):
    """Where the page of another pass lies on that of the first: numbers in the order of KEYS."""
    r = np.linalg.inv(first) @ other
    a = r[:2, :2] - np.eye(2)
    return np.array([r[0, 2], r[1, 2], (a[1, 0] - a[0, 1]) / 2 * 1e3, a[0, 0] * 1e6,
                     a[1, 1] * 1e6, (a[1, 0] + a[0, 1]) / 2 * 1e3])


def scan_sheet(settings, geometry, covers, args, number, seed, folder):
    """Files, and the true lays {(side, pass): six numbers}."""
    rng = np.random.default_rng([seed, number])
    made = paper_sheet.Sheet(geometry, rng, settings.hands, settings.paper, settings.passes)
    files, truth = [], {}
    for i, side in enumerate(("recto", "verso")):
        def cover(n):  # pages are ordered as they are fed
            return covers[(i * args.passes + n - 1) * args.sheets + number - 1]
        ink = simulate._inked(cover(1), settings.ink, [number, i, 1])
        further = []
        for n in range(2, args.passes + 1):
            place = made.another_pass[side]()
            truth[side, n] = lay(made.passes[side], place)
            page = simulate._inked(cover(n), settings.ink, [n, i]) / settings.ink.paper
            further.append((page, printed_page.Displacement(settings.feed, made.paper_mm, rng), place))
        displacement = printed_page.Displacement(settings.feed, made.paper_mm, rng)
        scan = flatbed.Scan(settings.scanner, made, side, ink, displacement, rng, further=further)
        files.append(os.path.join(folder, f"{seed}-{number}-{side}.tif"))
        scan.write(files[-1])
    return files, truth


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("versolay", help="the program to be judged")
    parser.add_argument("--work", default=tempfile.gettempdir(), help="folder for scans and caches")
    parser.add_argument("--passes", type=int, default=5)
    parser.add_argument("--sheets", type=int, default=2, help="numbered sheets, printed repeatedly")
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--dpi", type=int, default=300)
    args = parser.parse_args()
    os.makedirs(args.work, exist_ok=True)
    base = os.path.join(args.work, f"passes-{args.passes}-{args.sheets}")
    if not os.path.exists(base + ".json"):
        subprocess.run([args.versolay, "target", "--passes", str(args.passes), "--sheets",
                        str(args.sheets), "--run", "TEST", "--out", base + ".pdf", "--geometry",
                        base + ".json", "--quiet", "--force"], check=True)
    geometry = simulate.geometry_of(base + ".json")
    covers = simulate.covers(base + ".pdf", 2 * args.passes * args.sheets, base + "-pages")
    settings = simulate.Settings().varied(scanner__dpi=args.dpi)
    errors, z, missed = [], [], 0
    with tempfile.TemporaryDirectory(dir=args.work) as folder:
        for run in range(args.runs):
            files, truths = [], {}
            for number in range(1, args.sheets + 1):
                of_sheet, truths[number] = scan_sheet(settings, geometry, covers, args, number,
                                                      100 + run, folder)
                files += of_sheet
            readings = os.path.join(folder, "readings.json")
            subprocess.run([args.versolay, "measure", *files, "--out", readings, "--force",
                            "--quiet"], check=False)
            for reading in json.load(open(readings))["sheets"]:
                for (side, n), true in truths[reading["sheet"]].items():
                    found = [p for p in reading[side].get("passes", []) if p["pass"] == n]
                    if not found:
                        missed += 1
                        continue
                    read = np.array([found[0]["lay"][k] for k in frames.KEYS])
                    errors.append(read - true)
                    z.append(errors[-1] / np.sqrt(np.diag(found[0]["covariance"])))
            for f in files:
                os.remove(f)
            e = np.array(errors)
            print(f"{len(e)} lays, {missed} missed: rms dx, dy um",
                  (np.sqrt((e[:, :2]**2).mean(0)) * 1000).round(1), "rotation mrad",
                  np.sqrt((e[:, 2]**2).mean()).round(3), "over what was stated",
                  np.sqrt((np.array(z)[:, :3]**2).mean(0)).round(2), flush=True)


if __name__ == "__main__":
    main()
