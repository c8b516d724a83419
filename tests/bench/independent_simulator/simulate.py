"""Prints, punches and scans the sheets of a target, and keeps the truth."""

import dataclasses
import hashlib
import json
import os

import numpy as np

import printed_page
import scanner as flatbed
import sheet as paper_sheet

INK_STEPS = 60000                    # per unit of reflectance, in the files of printed pages


@dataclasses.dataclass
class Pictures:
    """Of each side. A sheet that fits the bed one way only is scanned that way, or turned by 180."""
    repeats: int = 1
    turned: bool = False             # every other repeat by 180 degrees
    both_ends: bool = False          # each of them twice, shifted: for a short bed

    def views(self, rng):
        """(quarter turns, end shown) of each scan."""
        if self.repeats == 1 and not self.both_ends:
            return [(None, 1)]
        first = 2 * rng.integers(2) if self.both_ends else rng.integers(4)
        turns = [(first + 2 * (k % 2) * self.turned) % 4 for k in range(self.repeats)]
        return [(q, end) for q in turns for end in ((1, -1) if self.both_ends else (1,))]


@dataclasses.dataclass
class Settings:
    ink: printed_page.Ink = dataclasses.field(default_factory=printed_page.Ink)
    feed: printed_page.Feed = dataclasses.field(default_factory=printed_page.Feed)
    hands: paper_sheet.Hands = dataclasses.field(default_factory=lambda: paper_sheet.PUNCH)
    paper: paper_sheet.Paper = dataclasses.field(default_factory=paper_sheet.Paper)
    passes: paper_sheet.Passes = dataclasses.field(default_factory=paper_sheet.Passes)
    scanner: flatbed.Scanner = dataclasses.field(default_factory=flatbed.Scanner)
    pictures: Pictures = dataclasses.field(default_factory=Pictures)

    def varied(self, **changes):
        """A copy with fields changed: varied(scanner__dpi=200, ink__gain_um=40, hands=PRICK)."""
        parts = {f.name: getattr(self, f.name) for f in dataclasses.fields(self)}
        for key, value in changes.items():
            part, _, field = key.partition("__")
            parts[part] = dataclasses.replace(parts[part], **{field: value}) if field else value
        return Settings(**parts)


def covers(target_pdf, pages, cache):
    """Ink coverage of the first pages of a PDF, rendered once and kept in a folder."""
    os.makedirs(cache, exist_ok=True)
    result = []
    for page in range(1, pages + 1):
        path = os.path.join(cache, f"page-{page}.npy")
        if not os.path.exists(path):
            full = printed_page.coverage(target_pdf, page)
            np.save(path, np.rint(full * 255).astype(np.uint8))
        result.append(path)
    return result


def _inked(cover_path, ink, seed):
    """The printed page; kept on the disk beside the coverage, for cells that share their ink."""
    name = hashlib.sha256(repr((ink, seed)).encode()).hexdigest()[:12]
    path = f"{cover_path}.{name}.npy"
    if not os.path.exists(path):
        cover = np.load(cover_path).astype(np.float32) / 255
        page = printed_page.inked(cover, ink, np.random.default_rng(seed))
        part = f"{path}.{os.getpid()}.npy"  # another study may want it at the same time
        np.save(part, np.clip(page * INK_STEPS + 0.5, 0, 65535).astype(np.uint16))
        os.replace(part, path)
    return np.load(path).astype(np.float32) / INK_STEPS


def make_runs(settings, geometry, cover_paths, runs, folder, seed):
    """Prints sheets 1.. of the target once per run and scans both sides. Ink is drawn once per
    sheet and used in every run; passes, feed errors, paper, holes and scanner are drawn again.
    Returns [(files, {sheet number: truth})] of the runs."""
    suffix = ".jpg" if settings.scanner.jpeg else ".tif"
    out = [([], {}) for _ in range(runs)]
    for number in range(1, len(cover_paths) // 2 + 1):
        ink = [_inked(cover_paths[2 * number - 2 + i], settings.ink, [number, i]) for i in (0, 1)]
        for run in range(runs):
            rng = np.random.default_rng([seed, number, run, 7])
            made = paper_sheet.Sheet(geometry, rng, settings.hands, settings.paper, settings.passes)
            files, truths = out[run]
            truths[number] = made.truth.tolist()
            for i, side in enumerate(("recto", "verso")):
                displacement = printed_page.Displacement(settings.feed, made.paper_mm, rng)
                for k, (quarters, end) in enumerate(settings.pictures.views(rng)):
                    scan = flatbed.Scan(settings.scanner, made, side, ink[i], displacement, rng,
                                        quarters, end)
                    path = os.path.join(folder, f"run{run}-sheet{number}-{side}-{k + 1}{suffix}")
                    scan.write(path)
                    files.append(path)
    return out


def geometry_of(path):
    with open(path) as f:
        return json.load(f)
