#!/usr/bin/env python3
"""Tries to make `versolay measure` say something wrong without a word. Good pairs of scans with known
truth, of both simulators, are damaged in many ways (damage.py), one side at a time, and read by holes
and edges, by holes with the edges out of the picture, and by edges alone. All seeds are fixed."""

import argparse
import collections
import concurrent.futures
import json
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(HERE, "..", "independent_simulator"))
import damage    # noqa: E402
import frames    # noqa: E402
import simulate  # noqa: E402

SILENT_MM = 0.04      # errors up to this are nobody's trouble
SILENT_SIGMAS = 3.0
LEVER_MM = 100.0      # where a rotation is felt
CUT_MM = 3.0          # of the picture, where edges are not to be seen


class Pair:
    def __init__(self, name, dpi, sides, truth):
        self.name, self.dpi, self.sides, self.truth = name, dpi, sides, truth


def run(command):
    return subprocess.run(command, capture_output=True, text=True)


def independent_pairs(args, count, seed):
    """A few numbered sheets, printed and scanned again and again."""
    dpi, designs = 150, 4
    base = os.path.join(args.work, "target")
    if not os.path.exists(base + ".json"):
        run([args.versolay, "target", "--paper", "200x220mm", "--sheets", str(designs), "--run",
             "TEST", "--out", base + ".pdf", "--geometry", base + ".json", "--quiet", "--force"])
    folder = os.path.join(args.work, f"independent-{seed}-{count}")
    truth_file = os.path.join(folder, "truth.json")
    if not os.path.exists(truth_file):
        os.makedirs(folder, exist_ok=True)
        covers = simulate.covers(base + ".pdf", 2 * designs, base + "-pages")
        made = simulate.make_runs(simulate.Settings().varied(scanner__dpi=dpi),
                                  simulate.geometry_of(base + ".json"), covers,
                                  max(1, count // designs), folder, seed)
        with open(truth_file, "w") as f:
            json.dump([[files, {str(k): v for k, v in truths.items()}] for files, truths in made], f)
    pairs = []
    for files, truths in json.load(open(truth_file)):
        for number, truth in truths.items():
            sides = [f for f in files if f"-sheet{number}-" in f]
            pairs.append(Pair(f"independent {len(pairs) + 1}", dpi, sides, truth))
    return pairs[:count]


def rehearsed_pairs(args, count, seed):
    """The program's own simulator of printer, hands and scanner."""
    pairs = []
    while len(pairs) < count:
        run_of = min(50, count - len(pairs)) if count - len(pairs) > 1 else 2
        pairs += one_rehearsal(args, run_of, seed)
        seed += 1
    return pairs[:count]


def one_rehearsal(args, count, seed):
    dpi = 200
    folder = os.path.join(args.work, f"rehearsed-{seed}-{count}")
    if not os.path.exists(os.path.join(folder, "print", "truth.json")):
        done = run([args.versolay, "rehearse", "--out", folder, "--sheets", str(count),
                    "--proof-sheets", "1", "--dpi", str(dpi), "--seed", str(seed), "--force",
                    "--quiet"])
        if done.returncode not in (0, 3):
            raise RuntimeError(done.stderr)
    return rehearsed_truth(os.path.join(folder, "print"), dpi)[:count]


def rehearsed_truth(folder, dpi):
    truth = json.load(open(os.path.join(folder, "truth.json")))
    scans = collections.defaultdict(list)
    for picture in truth["scans"]:
        scans[picture["sheet"]].append(os.path.join(folder, "scans", picture["file"]))
    pairs = []
    for sheet in truth["sheets"]:
        values = [sheet["registration"][k] for k in frames.KEYS]
        pairs.append(Pair(f"rehearsed {sheet['sheet']}", dpi, sorted(scans[sheet["sheet"]]), values))
    return pairs


def holes_in(picture, dpi):
    """Middles of dark discs of a punch's size inside light paper; pixels."""
    dark = (picture < np.percentile(picture, 90) * 0.5).astype(np.uint8)
    n, _, stats, middles = cv2.connectedComponentsWithStats(dark)
    mm2 = stats[:, cv2.CC_STAT_AREA] * (25.4 / dpi)**2
    across = stats[:, [cv2.CC_STAT_WIDTH, cv2.CC_STAT_HEIGHT]] * 25.4 / dpi
    box = across[:, 0] * across[:, 1]
    found = [tuple(middles[i]) for i in range(1, n)  # a disc fills 0.79 of its box; a tag less
             if 24 < mm2[i] < 33 and 0.73 < mm2[i] / box[i] < 0.84 and np.all(across[i] > 5)]
    if not 2 <= len(found) <= 8:
        raise RuntimeError(f"{len(found)} holes were found in a good picture")
    return found


def inside_the_edges(picture, dpi):
    """The picture without the paper's edges."""
    light = picture > np.percentile(picture, 90) * 0.5
    rows, columns = np.nonzero(light.mean(1) > 0.5)[0], np.nonzero(light.mean(0) > 0.5)[0]
    cut = int(CUT_MM * dpi / 25.4)
    return picture[rows[0] + cut:rows[-1] - cut, columns[0] + cut:columns[-1] - cut]


def write(path, picture, dpi):
    cv2.imwrite(path, picture, [cv2.IMWRITE_TIFF_XDPI, dpi, cv2.IMWRITE_TIFF_YDPI, dpi,
                                cv2.IMWRITE_TIFF_RESUNIT, 2])


def measured(args, files, datum, folder):
    out = os.path.join(folder, "readings.json")
    if os.path.exists(out):
        os.remove(out)
    done = subprocess.run([args.versolay, "measure", *files, "--out", out, "--force", "--quiet",
                           "--datum", datum, "--json"], capture_output=True, text=True, timeout=120)
    if done.returncode not in (0, 1, 2, 3):
        return {"crash": done.returncode, "stderr": done.stderr[-300:]}
    if not os.path.exists(out):
        return {"sheets": [], "rejected": [{"code": "all"}]}
    return json.load(open(out))


def judged(readings, truth):
    """ok, warned, refused, silent or crash; the error in mm; what was said."""
    if "crash" in readings:
        return "crash", 0.0, [str(readings["crash"])]
    if not readings["sheets"]:
        return "refused", 0.0, sorted({r["code"] for r in readings["rejected"]})
    sheet = readings["sheets"][0]
    error = np.array([sheet["registration"][k] for k in frames.KEYS])[:3] - np.array(truth)[:3]
    sd = np.sqrt(np.diag(np.array(sheet["covariance"]))[:3])
    lever = np.array([1, 1, LEVER_MM / 1000])
    worst = float(np.max(np.abs(error) * lever))
    if sheet["warnings"]:
        return "warned", worst, sorted({w["code"] for w in sheet["warnings"]})
    wrong = np.abs(error) * lever > np.maximum(SILENT_MM, SILENT_SIGMAS * sd * lever)
    return ("silent" if np.any(wrong) else "ok"), worst, []


MODES = {"holes and edges": "auto", "holes only": "holes", "edges only": "edges"}


def prepared(pair, mode, kind, seed):
    """Pictures of both sides, one of them damaged."""
    rng = np.random.default_rng(seed)
    pictures = [cv2.imread(f, cv2.IMREAD_GRAYSCALE) for f in pair.sides]
    which = int(rng.integers(2))
    holes = holes_in(pictures[which], pair.dpi)
    if kind is damage.show_through:
        pictures[which] = kind(pictures[which], rng, pair.dpi, holes, pictures[1 - which])
    elif kind is not None:
        pictures[which] = kind(pictures[which], rng, pair.dpi, holes)
    if mode == "holes only":
        pictures = [inside_the_edges(p, pair.dpi) for p in pictures]
    return pictures


def variant(args, kind, mode, i, pair):
    """Damages, measures and judges one pair."""
    seed = [args.seed, damage.KINDS.index(kind), list(MODES).index(mode), i]
    with tempfile.TemporaryDirectory(dir=args.work) as folder:
        files = []
        for n, picture in enumerate(prepared(pair, mode, kind, seed)):
            files.append(os.path.join(folder, f"side{n}.tif"))
            write(files[-1], picture, pair.dpi)
        verdict, error, said = judged(measured(args, files, MODES[mode], folder), pair.truth)
    return {"kind": kind.__name__, "mode": mode, "pair": pair.name, "variant": i, "verdict": verdict,
            "error_mm": round(error, 4), "said": said}


def good_scan(args, pair):
    with tempfile.TemporaryDirectory(dir=args.work) as folder:
        verdict, error, said = judged(measured(args, pair.sides, "auto", folder), pair.truth)
    return {"kind": "good", "mode": pair.name.split()[0], "pair": pair.name, "verdict": verdict,
            "error_mm": round(error, 4), "said": said}


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("versolay", help="the program to be tried")
    parser.add_argument("--work", default=os.path.join(tempfile.gettempdir(), "damaged-scans"))
    parser.add_argument("--variants", type=int, default=14, help="of each kind in each mode")
    parser.add_argument("--good", type=int, default=150, help="good pairs of each simulator")
    parser.add_argument("--only", default="", help="kinds whose names hold this")
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", default="", help="all results as JSON")
    args = parser.parse_args()
    os.makedirs(args.work, exist_ok=True)

    results = []
    with concurrent.futures.ThreadPoolExecutor(args.jobs) as pool:
        bases = independent_pairs(args, 8, args.seed) + rehearsed_pairs(args, 8, args.seed)
        bases = [p for p in bases if len(p.sides) == 2]
        for kind in damage.KINDS:
            if args.only not in kind.__name__:
                continue
            for mode in MODES:
                rows = list(pool.map(lambda i: variant(args, kind, mode, i, bases[i % len(bases)]),
                                     range(args.variants)))
                results += rows
                show(kind.__name__, mode, rows)
        if args.good and not args.only:
            good = independent_pairs(args, args.good, args.seed + 100)
            good += rehearsed_pairs(args, args.good, args.seed + 100)
            results += pool.map(lambda pair: good_scan(args, pair), good)
            for name in ("independent", "rehearsed"):
                show("good scans", name, [r for r in results
                                          if r["kind"] == "good" and r["mode"] == name])
    if args.out:
        json.dump(results, open(args.out, "w"), indent=1)
    for mode in MODES:
        rows = [r for r in results if r["mode"] == mode]
        show("ALL", mode, rows)


def show(kind, mode, rows):
    counts = collections.Counter(r["verdict"] for r in rows)
    silent = max([r["error_mm"] for r in rows if r["verdict"] == "silent"], default=0)
    said = collections.Counter(c for r in rows for c in r["said"])
    print(f"| {kind} | {mode} | {len(rows)} | " + " | ".join(
        str(counts[v]) for v in ("ok", "warned", "refused", "silent", "crash")) +
          f" | {silent:.2f} | " + ", ".join(f"{c} {n}" for c, n in said.most_common(3)) + " |",
          flush=True)


if __name__ == "__main__":
    main()
