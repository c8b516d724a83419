"""What a printer makes of a page of the real target PDF: a raster of its own, ink that spreads, and
feed errors. All rasters are of 600 dpi and share the upper left corner with the page."""

import dataclasses
import os
import subprocess
import tempfile

import cv2
import numpy as np
from scipy.stats import norm

RASTER_DPI = 600
PX_PER_MM = RASTER_DPI / 25.4


def coverage(pdf, page):
    """Ink coverage 0..1 (float32, rows x columns) of a page, drawn by pdftocairo."""
    with tempfile.TemporaryDirectory() as folder:
        base = os.path.join(folder, "page")
        subprocess.run(["pdftocairo", "-png", "-gray", "-r", str(RASTER_DPI), "-f", str(page), "-l",
                        str(page), "-singlefile", pdf, base], check=True)
        grey = cv2.imread(base + ".png", cv2.IMREAD_GRAYSCALE)
    return 1.0 - grey.astype(np.float32) / 255.0


@dataclasses.dataclass
class Ink:
    gain_um: float = 25.0            # every edge of the ink moves outwards by this
    spread_um: float = 30.0          # softness of an edge of ink, sd
    rough_um: float = 6.0            # raggedness of an edge, sd, correlated over about 80 um
    bleed_x_um: float = 0.0          # ink runs on to the right by this (along the swath)
    bleed_y_um: float = 0.0          # and down by this (along the feed)
    satellites_per_cm2: float = 3.0  # stray droplets of 60 um
    paper: float = 0.82              # reflectances, linear light
    black: float = 0.05
    mottle: float = 0.02             # sd of the black's reflectance over about 0.2 mm


def _shift(image, dx_px, dy_px):
    m = np.float32([[1, 0, dx_px], [0, 1, dy_px]])
    return cv2.warpAffine(image, m, image.shape[::-1])


def inked(cover, ink, rng):
    """Reflectance (float32, linear light) of the printed page before any scanner looks at it."""
    # The driver's raster: full black is on or off in each dot. Pale lines stay a pale tint.
    solid = cv2.dilate(cover, np.ones((3, 3), np.uint8)) > 0.6
    dots = np.where(solid, (cover > 0.3 + 0.4 * rng.random(cover.shape, dtype=np.float32)), cover)
    dots = dots.astype(np.float32)
    for dx, dy, length in ((1, 0, ink.bleed_x_um), (0, 1, ink.bleed_y_um)):
        length = length / 1000 * PX_PER_MM
        # A running maximum over 0..length; the last step is the fraction of a dot.
        grown = dots
        for step in np.arange(1, np.ceil(length) + 1):
            part = min(step, length)
            grown = np.maximum(grown, _shift(dots, dx * part, dy * part))
        dots = grown
    sigma_um = max(ink.spread_um, ink.gain_um)
    soft = cv2.GaussianBlur(dots, (0, 0), sigma_um / 1000 * PX_PER_MM)
    # Height and slope of a soft straight edge where the ink is to end.
    height = norm.cdf(-ink.gain_um / sigma_um)
    per_um = norm.pdf(ink.gain_um / sigma_um) / sigma_um
    rough = cv2.GaussianBlur(rng.standard_normal(cover.shape, dtype=np.float32), (0, 0), 1.0)
    rough *= ink.rough_um / rough[:200, :200].std()
    tint = np.where(cv2.dilate(solid.astype(np.uint8), np.ones((5, 5), np.uint8)) > 0, 0, soft)
    level = height + rough * per_um
    out = np.clip(0.5 + (soft - level) / (per_um * 1000 / PX_PER_MM), 0, 1)
    out[soft < 0.003] = 0
    out = np.maximum(out * (tint == 0), tint)
    count = rng.poisson(ink.satellites_per_cm2 * cover.size / PX_PER_MM**2 / 100)
    for x, y in zip(rng.integers(0, cover.shape[1], count), rng.integers(0, cover.shape[0], count)):
        cv2.circle(out, (int(x), int(y)), 1, 0.8, -1)
    mottle = cv2.resize(rng.standard_normal((cover.shape[0] // 5 + 1, cover.shape[1] // 5 + 1),
                                            dtype=np.float32), cover.shape[::-1])
    black = ink.black + ink.mottle * mottle
    return (ink.paper + (black - ink.paper) * out).astype(np.float32)


@dataclasses.dataclass
class Feed:
    """Errors of the transport within a page, as a displacement of the ink against where an affine
    pass would have put it; functions of the page's y."""
    swath_mm: float = 12.7
    swath_um: float = 6.0            # each swath lands off by this, sd, along both axes
    roller_um: float = 8.0           # amplitude of the roller's sinusoid, along the feed
    roller_mm: float = 41.0
    walk_um: float = 0.0             # feed errors that add up, sd per swath


class Displacement:
    """A drawn Feed: x and y displacement in mm on a grid of 0.1 mm along the page's y."""

    STEP_MM = 0.1

    def __init__(self, feed, page_mm, rng):
        half = page_mm[1] / 2 + 20
        self.start = -half
        y = np.arange(-half, half, self.STEP_MM)
        swath = np.floor((y + half + rng.uniform(0, feed.swath_mm)) / feed.swath_mm).astype(int)
        n = swath.max() + 1
        x_off = rng.normal(0, feed.swath_um, n)
        y_off = rng.normal(0, feed.swath_um, n) + np.cumsum(rng.normal(0, feed.walk_um, n))
        roller = feed.roller_um * np.sin(2 * np.pi * y / feed.roller_mm + rng.uniform(0, 2 * np.pi))
        blend = np.ones(10) / 10         # swaths overlap (interlaced passes)
        self.dx = np.convolve(x_off[swath], blend, "same") / 1000
        self.dy = (np.convolve(y_off[swath], blend, "same") + roller) / 1000

    def at(self, y):
        i = ((y - self.start) / self.STEP_MM).astype(np.int32)
        i = np.clip(i, 0, len(self.dx) - 1)
        return self.dx[i], self.dy[i]
