"""A flatbed scanner: where each pixel looks on the bed, how sharp it sees, what it makes of the
light. The image is computed by looking up, for each pixel, the point of the sheet it sees."""

import dataclasses

import cv2
import numpy as np
from scipy.special import erf

import frames
from printed_page import PX_PER_MM

BLOCK_ROWS = 256
HALO_MM = 0.6                        # reach of scattered light, sd
EDGE_STEPS_MM = np.linspace(-3, 3, 12001)


@dataclasses.dataclass
class Scanner:
    dpi: int = 300
    scale_x_ppm: float = 1200
    scale_y_ppm: float = -1500
    shear_mrad: float = 1.0
    sag_um: float = 60.0             # the middle of a scan line is behind its ends by this
    lens_ppm: float = 600            # magnification across the line varies by this, with x squared
    gear_um: float = 20.0            # wobble of the carriage: amplitude
    gear_mm: float = 6.3
    walk_um: float = 15.0            # random walk held back over 30 mm, sd
    white_um: float = 2.0            # of each line, sd
    sway_um: float = 4.0             # sideways wobble, amplitude, over 50 mm
    blur_um: float = 45.0            # sd of the point spread, apart from the pixel's aperture
    motion_blur_um: float = 0.0      # extra blur along the carriage, sd
    halo: float = 0.04               # light scattered over HALO_MM
    noise: float = 1.5               # sd at white, of 255 levels; falls with the light
    texture: float = 0.006           # of the paper, relative, over a few pixels
    shading: float = 0.04            # fall-off of the light across the bed
    background: float = 0.03         # reflectance behind the sheet
    gamma: float = 2.2
    clip: float = 0.0                # auto levels: this share of the tone range is cut at each end
    sharpen: float = 0.0             # unsharp mask, amount
    dust_per_dm2: float = 4.0
    jpeg: int = 0                    # quality; 0: lossless
    skew_mrad: float = 10.0          # of the sheet on the bed, uniform to this
    margin_mm: float = 4.0           # of bed beyond the paper
    growth_ppm: float = 150          # the paper between the scans, sd
    short_bed_mm: float = 0.0        # 0: longer than the sheet; else as long as it, and the sheet
                                     # lies this far beyond one end


def _quarter_turn(q):
    return np.array([[0, -1, 0], [1, 0, 0], [0, 0, 1.0]]) if q == 1 else (
        np.eye(3) if q == 0 else _quarter_turn(1) @ _quarter_turn(q - 1))


class Scan:
    """One scan of one side. image(): uint8, as the scanner's program saves it."""

    def __init__(self, scanner, sheet, side, reflectance, displacement, rng, quarters=None, end=1,
                 further=()):
        """quarters: turns by 90 degrees on the bed; end: 1 or -1, that which a short bed shows.
        further: (reflectance over that of the paper, displacement, pass) of each later pass."""
        self.s, self.sheet, self.side, self.rng = scanner, sheet, side, rng
        self.displacement = displacement
        self.quarters = rng.integers(4) if quarters is None else quarters
        w, h = sheet.paper_mm
        if self.quarters % 2:
            w, h = h, w
        s = scanner
        self.bed_mm = (w + 2 * s.margin_mm, h if s.short_bed_mm else h + 2 * s.margin_mm)
        self.shape = tuple(int(np.ceil(m / 25.4 * s.dpi)) for m in self.bed_mm[::-1])
        turn = rng.uniform(-s.skew_mrad, s.skew_mrad) * 1e-3
        c, n = np.cos(turn), np.sin(turn)
        pose = np.array([[c, -n, rng.normal(0, 0.3)],
                         [n, c, rng.normal(0, 0.3) + end * s.short_bed_mm], [0, 0, 1.0]])
        grown = 1 + rng.normal(0, s.growth_ppm) * 1e-6
        self.side_from_bed = np.linalg.inv(pose @ _quarter_turn(self.quarters)
                                           @ np.diag([grown, grown, 1]))
        self._wobble(rng)
        # The point spread acts on the page's raster; turned by a multiple of 90 degrees.
        pitch = 25.4 / s.dpi
        self.sigma = np.sqrt((s.blur_um / 1000)**2 + pitch**2 / 12)
        along = np.hypot(self.sigma, s.motion_blur_um / 1000)
        sx, sy = (self.sigma, along) if self.quarters % 2 == 0 else (along, self.sigma)
        self.sigmas_on_page = (sx, sy)
        self.page = _seen(reflectance, sx, sy, s.halo)
        self.further = [(_seen(r, sx, sy, s.halo), d, np.linalg.inv(p)) for r, d, p in further]

    def _wobble(self, rng):
        s = self.s
        rows = self.shape[0]
        y = np.arange(rows) * 25.4 / s.dpi
        keep = np.exp(-25.4 / s.dpi / 30.0)
        walk = np.zeros(rows)
        step = s.walk_um * np.sqrt(1 - keep * keep)
        kicks = rng.normal(0, step, rows)
        level = rng.normal(0, s.walk_um) if s.walk_um else 0.0
        for i in range(rows):
            level = keep * level + kicks[i]
            walk[i] = level
        gear = s.gear_um * np.sin(2 * np.pi * y / s.gear_mm + rng.uniform(0, 2 * np.pi))
        self.row_y = ((gear + walk + rng.normal(0, s.white_um, rows)) / 1000).astype(np.float32)
        sway = s.sway_um / 1000 * np.sin(2 * np.pi * y / 50 + rng.uniform(0, 2 * np.pi))
        self.row_x = sway.astype(np.float32)

    def side_places(self, r0, r1, c0, c1):
        """Places on the side of the sheet that the pixels look at, in that side's view, mm."""
        s = self.s
        bw, bh = self.bed_mm
        u = ((np.arange(c0, c1) + 0.5) * 25.4 / s.dpi - bw / 2).astype(np.float32)[None, :]
        v = ((np.arange(r0, r1) + 0.5) * 25.4 / s.dpi - bh / 2).astype(np.float32)[:, None]
        t = u / (bw / 2)
        x = u * (1 + s.scale_x_ppm * 1e-6 + s.lens_ppm * 1e-6 * t * t) + self.row_x[r0:r1, None]
        y = (v * (1 + s.scale_y_ppm * 1e-6) + s.shear_mrad * 1e-3 * u
             + s.sag_um / 1000 * (1 - t * t) + self.row_y[r0:r1, None])
        return frames.apply(self.side_from_bed, x, y)

    def _light(self, r0, r1, c0, c1):
        """Reflectance seen by a block of pixels."""
        s = self.s
        x, y = self.side_places(r0, r1, c0, c1)
        light = self._of_page(self.page, self.displacement,
                              self.sheet.page_from_side(self.side), x, y)
        for page, displacement, page_from_side in self.further:
            light *= self._of_page(page, displacement, page_from_side, x, y)
        rx, ry = frames.apply(self.sheet.recto_from_side(self.side), x, y)
        return light, rx, ry

    def _of_page(self, page, displacement, page_from_side, x, y):
        px, py = frames.apply(page_from_side, x, y)
        dx, dy = displacement.at(py)
        # The raster's corner is the page's; its size is the page's, rounded up to whole dots.
        w, h = self.sheet.paper_mm
        return cv2.remap(page, ((px - dx + w / 2) * PX_PER_MM - 0.5).astype(np.float32),
                         ((py - dy + h / 2) * PX_PER_MM - 0.5).astype(np.float32),
                         cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)

    def _behind(self, outside_mm):
        """Light from behind the paper, darkened near a rim."""
        return self.s.background * (1 - self.sheet.shadow * np.exp(-outside_mm / 0.5))

    def _cover(self, inwards):
        """Share of the paper that a pixel sees whose distance from a straight edge is that."""
        d = EDGE_STEPS_MM
        core = 0.5 * (1 + erf(d / (np.sqrt(2) * self.sigma)))
        wide = 0.5 * (1 + erf(d / (np.sqrt(2) * HALO_MM)))
        table = ((1 - self.s.halo) * core + self.s.halo * wide).astype(np.float32)
        at = np.clip((inwards - d[0]) / (d[1] - d[0]) + 0.5, 0, d.size - 1).astype(np.int32)
        return table[at]

    def image(self):
        s, rng = self.s, self.rng
        rows, cols = self.shape
        light = np.empty(self.shape, np.float32)
        near = int(np.ceil((s.margin_mm + 6) / 25.4 * s.dpi))
        for r in range(0, rows, BLOCK_ROWS):
            r1 = min(r + BLOCK_ROWS, rows)
            block, rx, ry = self._light(r, r1, 0, cols)
            # Only a frame of the picture can contain the paper's edges.
            parts = [(slice(None), slice(0, near)), (slice(None), slice(cols - near, cols))]
            if r < near or r1 > rows - near:
                parts = [(slice(None), slice(None))]
            for part in parts:
                inside = self.sheet.inwards(self.side, rx[part], ry[part])
                cover = self._cover(inside)
                block[part] = block[part] * cover + self._behind(np.maximum(-inside, 0)) * (1 - cover)
            light[r:r1] = block
        for hole in self.sheet.holes:
            self._punch(light, hole)
        return self._tone(light)

    def _punch(self, light, hole):
        cx, cy = frames.apply(np.linalg.inv(self.sheet.recto_from_side(self.side)), hole.x, hole.y)
        bx, by = frames.apply(np.linalg.inv(self.side_from_bed), cx, cy)
        reach = hole.radius * 1.3 + 2.0
        to_px = self.s.dpi / 25.4
        c0, c1 = (int((bx + e + self.bed_mm[0] / 2) * to_px) for e in (-reach, reach))
        r0, r1 = (int((by + e + self.bed_mm[1] / 2) * to_px) for e in (-reach, reach))
        r0, c0 = max(r0, 0), max(c0, 0)
        r1, c1 = min(r1, self.shape[0]), min(c1, self.shape[1])
        x, y = self.side_places(r0, r1, c0, c1)
        rx, ry = frames.apply(self.sheet.recto_from_side(self.side), x, y)
        inside = hole.inwards(self.side, rx, ry)
        cover = self._cover(-inside)
        patch = light[r0:r1, c0:c1]
        light[r0:r1, c0:c1] = patch * cover + self._behind(np.maximum(inside, 0)) * (1 - cover)

    def _tone(self, light):
        s, rng = self.s, self.rng
        rows, cols = self.shape
        t = np.linspace(-1, 1, cols, dtype=np.float32)[None, :]
        v = np.linspace(-1, 1, rows, dtype=np.float32)[:, None]
        light *= 1 - s.shading * (t * t + 0.5 * (v + 0.3 * t))
        if s.texture:
            field = cv2.resize(_normals(rng, (rows // 2 + 1, cols // 2 + 1)), (cols, rows))
            light *= 1 + s.texture * field
        dust = rng.poisson(s.dust_per_dm2 * self.bed_mm[0] * self.bed_mm[1] / 1e4)
        for x, y, r in zip(rng.integers(0, cols, dust), rng.integers(0, rows, dust),
                           rng.exponential(0.06, dust)):
            cv2.circle(light, (int(x), int(y)), int(r / 25.4 * s.dpi + 0.5), 0.3, -1)
        level = light / 0.9
        noise = s.noise / 255 * np.sqrt(np.clip(level, 0.02, 1))
        level += noise * _normals(rng, self.shape)
        steps = np.arange(4097, dtype=np.float32) / 4096
        tone = (steps ** (1 / s.gamma))[(np.clip(level, 0, 1) * 4096 + 0.5).astype(np.int16)]
        if s.clip:
            tone = np.clip((tone - s.clip) / (1 - 2 * s.clip), 0, 1)
        if s.sharpen:
            tone = tone + s.sharpen * (tone - cv2.GaussianBlur(tone, (0, 0), 1.2))
        return np.clip(tone * 255 + 0.5, 0, 255).astype(np.uint8)

    def write(self, path):
        image = self.image()
        if self.s.jpeg:
            cv2.imwrite(path, image, [cv2.IMWRITE_JPEG_QUALITY, self.s.jpeg])
        else:
            cv2.imwrite(path, image, [cv2.IMWRITE_TIFF_COMPRESSION, 1, cv2.IMWRITE_TIFF_RESUNIT, 2,
                                      cv2.IMWRITE_TIFF_XDPI, self.s.dpi,
                                      cv2.IMWRITE_TIFF_YDPI, self.s.dpi])


_pool = np.random.default_rng(5).standard_normal(1 << 23, dtype=np.float32)


def _normals(rng, shape):
    """Standard normal numbers, cheaply: a stretch of a pool that begins anywhere."""
    size = shape[0] * shape[1]
    if size > _pool.size // 2:
        return rng.standard_normal(shape, dtype=np.float32)
    start = rng.integers(_pool.size - size)
    return _pool[start:start + size].reshape(shape)


_seen_cache = {}


def _seen(reflectance, sx, sy, halo):
    """The page through the scanner's optics; kept, because many scans look at one page."""
    key = (id(reflectance), round(sx, 6), round(sy, 6), halo)
    if key not in _seen_cache:
        if len(_seen_cache) > 3:
            _seen_cache.clear()
        core = cv2.GaussianBlur(reflectance, (0, 0), sx * PX_PER_MM, sigmaY=sy * PX_PER_MM)
        if halo:
            small = cv2.resize(reflectance, None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA)
            wide = cv2.GaussianBlur(small, (0, 0), HALO_MM * PX_PER_MM / 4)
            core = (1 - halo) * core + halo * cv2.resize(wide, core.shape[::-1])
        _seen_cache[key] = core, reflectance  # held, or its id could come back
    return _seen_cache[key][0]
