"""Ways in which a scan of a good sheet goes wrong. Each takes a grey picture (uint8), a random
generator and the places of its holes and returns a damaged one; sizes are in mm."""

import cv2
import numpy as np


def _px(dpi, mm):
    return mm * dpi / 25.4


def lost_lines(picture, rng, dpi, holes):
    """The transport stutters: 1 to 12 lines are missing somewhere, the bottom is filled up."""
    count = int(rng.integers(2, 13))
    at = int(rng.integers(picture.shape[0] // 10, 9 * picture.shape[0] // 10))
    return np.vstack([picture[:at], picture[at + count:], np.repeat(picture[-1:], count, axis=0)])


def repeated_lines(picture, rng, dpi, holes):
    count = int(rng.integers(2, 13))
    at = int(rng.integers(picture.shape[0] // 10, 9 * picture.shape[0] // 10))
    return np.vstack([picture[:at], np.repeat(picture[at:at + 1], count, axis=0),
                      picture[at:-count]])


def lines_near_a_hole(picture, rng, dpi, holes):
    """The same, within 12 mm of a hole."""
    count = int(rng.integers(2, 9))
    y = holes[rng.integers(len(holes))][1] + rng.uniform(-12, 12) * dpi / 25.4
    at = int(np.clip(y, 20, picture.shape[0] - 40))
    return np.vstack([picture[:at], picture[at + count:], np.repeat(picture[-1:], count, axis=0)])


def moved_midway(picture, rng, dpi, holes):
    """The sheet is pushed while it is scanned, all at once."""
    at = int(rng.integers(picture.shape[0] // 5, 4 * picture.shape[0] // 5))
    shift = rng.uniform(0.15, 0.5, 2) * rng.choice([-1, 1], 2)
    moved = _shifted(picture, *(_px(dpi, shift)))
    return np.vstack([picture[:at], moved[at:]])


def slid_slowly(picture, rng, dpi, holes):
    """Or bit by bit over 30 to 80 mm."""
    height = picture.shape[0]
    start = rng.uniform(0.1, 0.6) * height
    length = _px(dpi, rng.uniform(30, 80))
    shift = _px(dpi, rng.uniform(0.15, 0.5) * rng.choice([-1, 1]))
    way = shift * np.clip((np.arange(height) - start) / length, 0, 1)
    return _remap(picture, way[:, None] * np.ones(picture.shape[1])[None], 0)


def stretched_part(picture, rng, dpi, holes):
    """A driver that resamples unevenly: one third of the picture is 0.1 to 0.4 % longer."""
    height = picture.shape[0]
    start = rng.uniform(0.1, 0.6) * height
    inside = np.clip(np.arange(height) - start, 0, height / 3)
    way = inside * rng.uniform(0.001, 0.004) * rng.choice([-1, 1])
    return _remap(picture, 0, way[:, None] * np.ones(picture.shape[1])[None])


def torn_hole(picture, rng, dpi, holes):
    """One hole is longer by 0.1 to 0.8 mm, one way, in this picture only."""
    x, y = holes[rng.integers(len(holes))]
    angle = rng.uniform(0, 2 * np.pi)
    longer = rng.uniform(0.15, 0.8)
    dark = int(np.percentile(picture[int(y) - 3:int(y) + 4, int(x) - 3:int(x) + 4], 50))
    out = picture.copy()
    radius = _px(dpi, 3.0)
    for step in np.linspace(0, longer, 12):
        place = (x + _px(dpi, step) * np.cos(angle), y + _px(dpi, step) * np.sin(angle))
        _disc(out, place, radius, dark)
    return out


def half_covered_hole(picture, rng, dpi, holes):
    """A scrap of the punch hangs in one hole."""
    x, y = holes[rng.integers(len(holes))]
    angle = rng.uniform(0, 2 * np.pi)
    depth = rng.uniform(0.2, 1.0)
    out = picture.copy()
    paper = int(np.percentile(picture, 90))
    far = _px(dpi, 3.0 - depth)
    yy, xx = np.mgrid[0:picture.shape[0], 0:picture.shape[1]]
    inside = (np.hypot(xx - x, yy - y) < _px(dpi, 3.05)) & (
        (xx - x) * np.cos(angle) + (yy - y) * np.sin(angle) > far)
    out[inside] = paper
    return out


def shadow_in_holes(picture, rng, dpi, holes):
    """A lid behind the sheet: a crescent of grey on one side of every hole."""
    out = picture.astype(np.float32)
    angle = rng.uniform(0, 2 * np.pi)
    width = rng.uniform(0.1, 0.5)
    level = rng.uniform(0.4, 0.9)
    paper = np.percentile(picture, 90)
    for x, y in holes:
        r = int(_px(dpi, 4))
        y0, y1, x0, x1 = int(y) - r, int(y) + r, int(x) - r, int(x) + r
        if y0 < 0 or x0 < 0 or y1 > out.shape[0] or x1 > out.shape[1]:
            continue
        yy, xx = np.mgrid[y0:y1, x0:x1]
        reach = (xx - x) * np.cos(angle) + (yy - y) * np.sin(angle)
        crescent = (np.hypot(xx - x, yy - y) < _px(dpi, 2.95)) & (reach > _px(dpi, 3.0 - width))
        out[y0:y1, x0:x1][crescent] = level * paper
    return np.clip(out, 0, 255).astype(np.uint8)


def _edge_strip(picture, rng, dpi, depth_mm, part):
    """Mask of what lies within depth of the paper's edge, along `part` of one side."""
    paper = (cv2.medianBlur(picture, 5) > np.percentile(picture, 90) * 0.55).astype(np.uint8)
    paper = cv2.morphologyEx(paper, cv2.MORPH_CLOSE, np.ones((31, 31), np.uint8))
    n, labels, stats, _ = cv2.connectedComponentsWithStats(paper)
    sheet = labels == 1 + np.argmax(stats[1:, cv2.CC_STAT_AREA])
    size = int(round(_px(dpi, depth_mm)))
    ways = [(1, 0), (-1, 0), (0, 1), (0, -1)]
    dx, dy = ways[rng.integers(4)]
    away = np.roll(np.roll(sheet, size * dx, axis=1), size * dy, axis=0)
    strip = sheet & ~away
    ys, xs = np.nonzero(sheet)
    along = np.mgrid[0:picture.shape[0], 0:picture.shape[1]][0 if dx else 1]
    low, high = (ys.min(), ys.max()) if dx else (xs.min(), xs.max())
    length = (high - low) * part
    start = rng.uniform(low, max(low + 1, high - length))
    return strip & (along >= start) & (along <= start + length)


def nicked_edge(picture, rng, dpi, holes):
    """A part of an edge is missing, 0.1 to 0.5 mm deep, in this picture only."""
    out = picture.copy()
    strip = _edge_strip(picture, rng, dpi, rng.uniform(0.15, 0.5), rng.uniform(0.15, 0.6))
    out[strip] = int(np.percentile(picture, 2))
    return cv2.GaussianBlur(out, (0, 0), 0.5)


def shaded_edge(picture, rng, dpi, holes):
    """Or in shadow, because it curls away from the glass."""
    strip = _edge_strip(picture, rng, dpi, rng.uniform(0.2, 0.8), rng.uniform(0.3, 1.0))
    out = picture.astype(np.float32)
    out[strip] *= rng.uniform(0.3, 0.9)
    return cv2.GaussianBlur(out, (0, 0), 0.7).astype(np.uint8)


def trimmed_edge(picture, rng, dpi, holes):
    """A whole edge is nearer, 0.1 to 0.5 mm."""
    out = picture.copy()
    strip = _edge_strip(picture, rng, dpi, rng.uniform(0.15, 0.5), 1.0)
    out[strip] = int(np.percentile(picture, 2))
    return cv2.GaussianBlur(out, (0, 0), 0.5)


def show_through(picture, rng, dpi, holes, other=None):
    """Thin paper: the other side shows, mirrored, by 10 to 45 % of its contrast."""
    share = rng.uniform(0.1, 0.45)
    other = picture if other is None else other
    seen = cv2.GaussianBlur(cv2.resize(other[:, ::-1], picture.shape[::-1]), (0, 0),
                            _px(dpi, 0.15)).astype(np.float32)
    white = np.percentile(picture, 90)
    return np.clip(picture - share * (white - np.minimum(seen, white)), 0, 255).astype(np.uint8)


def sensor_lag(picture, rng, dpi, holes):
    """Each line keeps a part of those before."""
    keep = rng.uniform(0.3, 0.75)
    out = picture.astype(np.float32)
    for y in range(1, len(out)):
        out[y] = keep * out[y - 1] + (1 - keep) * out[y]
    return out.astype(np.uint8)


def blurred_part(picture, rng, dpi, holes):
    y = int(rng.integers(0, 2 * picture.shape[0] // 3))
    x = int(rng.integers(0, 2 * picture.shape[1] // 3))
    out = picture.copy()
    h, w = picture.shape[0] // 3, picture.shape[1] // 3
    out[y:y + h, x:x + w] = cv2.GaussianBlur(out[y:y + h, x:x + w], (0, 0),
                                             _px(dpi, rng.uniform(0.1, 0.5)))
    return out


def hard_jpeg(picture, rng, dpi, holes):
    quality = int(rng.integers(10, 60))
    return cv2.imdecode(cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, quality])[1],
                        cv2.IMREAD_GRAYSCALE)


def other_tone(picture, rng, dpi, holes):
    """Gamma, and light parts that are burnt out."""
    gamma = rng.uniform(0.4, 2.5)
    return np.clip(255 * (picture / 255.0)**gamma * rng.uniform(0.9, 1.3), 0, 255).astype(np.uint8)


def negative(picture, rng, dpi, holes):
    return 255 - picture


def sharpened(picture, rng, dpi, holes):
    soft = cv2.GaussianBlur(picture, (0, 0), _px(dpi, rng.uniform(0.1, 0.3)))
    return cv2.addWeighted(picture, 1 + rng.uniform(0.5, 2.5), soft, -rng.uniform(0.5, 2.0), 0)


def deskewed(picture, rng, dpi, holes):
    """Turned by a scanner program, nearest pixel or smoothly."""
    angle = rng.uniform(-3, 3)
    h, w = picture.shape
    turn = cv2.getRotationMatrix2D((w / 2, h / 2), angle, 1)
    return cv2.warpAffine(picture, turn, (w, h), borderValue=int(np.percentile(picture, 2)),
                          flags=int(rng.choice([cv2.INTER_NEAREST, cv2.INTER_LINEAR])))


def dusty(picture, rng, dpi, holes):
    out = picture.copy()
    for _ in range(int(rng.integers(30, 300))):
        _disc(out, rng.uniform(0, 1, 2) * picture.shape[::-1], _px(dpi, rng.uniform(0.05, 0.6)),
              int(rng.choice([20, 240])))
    return out


def grey_part(picture, rng, dpi, holes):
    """A cable fell out: from some line on all is grey."""
    out = picture.copy()
    out[int(rng.uniform(0.3, 0.95) * len(out)):] = 128
    return out


def cropped(picture, rng, dpi, holes):
    cut = _px(dpi, rng.uniform(2, 25, 4)).astype(int) * rng.integers(0, 2, 4)
    return picture[cut[0]:len(picture) - cut[1] or None, cut[2]:picture.shape[1] - cut[3] or None]


def striped(picture, rng, dpi, holes):
    """Dirt on the calibration strip: columns that are darker."""
    out = picture.astype(np.float32)
    for _ in range(int(rng.integers(1, 12))):
        x = int(rng.integers(0, picture.shape[1] - 4))
        out[:, x:x + int(rng.integers(1, 4))] *= rng.uniform(0.4, 0.9)
    return out.astype(np.uint8)


def moved_near_an_edge(picture, rng, dpi, holes):
    """The sheet is pushed when the carriage has nearly left it, or has hardly reached it."""
    light = np.nonzero((picture > np.percentile(picture, 90) * 0.5).mean(1) > 0.5)[0]
    inside = int(_px(dpi, rng.uniform(3, 20)))
    at = light[0] + inside if rng.integers(2) else light[-1] - inside
    moved = _shifted(picture, *_px(dpi, rng.uniform(0.1, 0.4, 2) * rng.choice([-1, 1], 2)))
    return np.vstack([picture[:at], moved[at:]])


def few_lines(picture, rng, dpi, holes):
    """One or two lines are missing."""
    count = int(rng.integers(1, 3))
    at = int(rng.integers(picture.shape[0] // 10, 9 * picture.shape[0] // 10))
    return np.vstack([picture[:at], picture[at + count:], np.repeat(picture[-1:], count, axis=0)])


def turned_slowly(picture, rng, dpi, holes):
    """A sheet-fed scanner turns the sheet while it pulls it through: by 0.5 to 4 mrad."""
    height, width = picture.shape
    turn = rng.uniform(0.0005, 0.004) * rng.choice([-1, 1]) * (np.arange(height) / height)
    across = np.arange(width) - width / 2
    along = np.cumsum(turn)[:, None] * np.ones(width)[None]
    return _remap(picture, along, -turn[:, None] * across[None])


def uneven_carriage(picture, rng, dpi, holes):
    """A worn gear: lines are where they should be give or take 0.05 to 0.3 mm, with 5 to 60 mm."""
    period = _px(dpi, rng.uniform(5, 60))
    way = _px(dpi, rng.uniform(0.05, 0.3)) * np.sin(
        2 * np.pi * np.arange(picture.shape[0]) / period + rng.uniform(0, 6.3))
    return _remap(picture, 0, way[:, None] * np.ones(picture.shape[1])[None])


def curled_side(picture, rng, dpi, holes):
    """The sheet lifts along one side: the last 30 to 80 mm come out shorter by 0.1 to 0.5 mm."""
    height, width = picture.shape
    reach = _px(dpi, rng.uniform(30, 80))
    shift = _px(dpi, rng.uniform(0.1, 0.5))
    if rng.integers(2):
        way = shift * np.clip((np.arange(width) - (width - reach)) / reach, 0, 1)**2
        return _remap(picture, way[None] * np.ones(height)[:, None], 0)
    way = shift * np.clip((np.arange(height) - (height - reach)) / reach, 0, 1)**2
    return _remap(picture, 0, way[:, None] * np.ones(width)[None])


def folded_corner(picture, rng, dpi, holes):
    """A corner is folded over by 3 to 25 mm."""
    height, width = picture.shape
    light = picture > np.percentile(picture, 90) * 0.5
    rows, columns = np.nonzero(light.mean(1) > 0.5)[0], np.nonzero(light.mean(0) > 0.5)[0]
    x = columns[0] if rng.integers(2) else columns[-1]
    y = rows[0] if rng.integers(2) else rows[-1]
    yy, xx = np.mgrid[0:height, 0:width]
    out = picture.copy()
    out[np.abs(xx - x) + np.abs(yy - y) < _px(dpi, rng.uniform(3, 25))] = int(np.percentile(picture, 2))
    return out


def glare(picture, rng, dpi, holes):
    """Gloss throws the lamp back: a spot of 20 to 60 mm in which contrast is gone."""
    yy, xx = np.mgrid[0:picture.shape[0], 0:picture.shape[1]]
    x, y = rng.uniform(0, 1, 2) * picture.shape[::-1]
    spot = np.exp(-((xx - x)**2 + (yy - y)**2) / (2 * _px(dpi, rng.uniform(10, 30))**2))
    return np.clip(picture + rng.uniform(60, 250) * spot, 0, 255).astype(np.uint8)


def inked_hole(picture, rng, dpi, holes):
    """Somebody drew around one hole, or the punch left a dark burr on one side of it."""
    x, y = holes[rng.integers(len(holes))]
    out = picture.copy()
    if rng.integers(2):
        cv2.circle(out, (int(round(x)), int(round(y))), int(_px(dpi, 3.0 + rng.uniform(0.1, 0.6))), 30,
                   max(1, int(_px(dpi, 0.3))), cv2.LINE_AA)
        return out
    angle = rng.uniform(0, 360)
    cv2.ellipse(out, (int(round(x)), int(round(y))), (int(_px(dpi, 3.05)),) * 2, 0, angle,
                angle + rng.uniform(40, 200), 30, max(1, int(_px(dpi, rng.uniform(0.1, 0.5)))), cv2.LINE_AA)
    return out


def _disc(picture, place, radius, level):
    shift = 6
    cv2.circle(picture, tuple(int(round(v * 2**shift)) for v in place),
               int(round(radius * 2**shift)), level, -1, cv2.LINE_AA, shift)


def _shifted(picture, dx, dy):
    return cv2.warpAffine(picture, np.float32([[1, 0, dx], [0, 1, dy]]), picture.shape[::-1],
                          flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)


def _remap(picture, dx, dy):
    yy, xx = np.mgrid[0:picture.shape[0], 0:picture.shape[1]].astype(np.float32)
    return cv2.remap(picture, (xx + dx).astype(np.float32), (yy + dy).astype(np.float32),
                     cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)


KINDS = [lost_lines, repeated_lines, lines_near_a_hole, moved_midway, slid_slowly, stretched_part,
         torn_hole, half_covered_hole, shadow_in_holes, nicked_edge, shaded_edge, trimmed_edge,
         show_through, sensor_lag, blurred_part, hard_jpeg, other_tone, negative, sharpened,
         deskewed, dusty, grey_part, cropped, striped, moved_near_an_edge, few_lines, turned_slowly,
         uneven_carriage, curled_side, folded_corner, glare, inked_hole]
