"""A sheet of paper after printing and the hands' work: its two print passes, its outline, its holes.
Places are those of the sheet seen from the front ("sheet recto", mm from its middle)."""

import dataclasses

import numpy as np

import frames


@dataclasses.dataclass
class Hands:
    kind: str = "punch"              # "punch", "prick" or "none"
    count: int = 0                   # how many of the target's holes are made; 0: all
    miss_mm: float = 0.7             # a hole lands beside its nominal place by this, sd, per axis
    radius_mm: float = 3.0           # punch; pins: 0.4
    rough: float = 0.002             # raggedness of the rim, part of the radius, sd per harmonic
    burr: float = 0.0015             # the same, but different on each side of the sheet
    lean_um: float = 4.0             # the hole comes out beside where it went in: sd of each hole
    steady_lean_um: float = 0.0      # and what all holes of one way round have in common


PUNCH = Hands()
PRICK = Hands(kind="prick", miss_mm=0.5, radius_mm=0.4, rough=0.02, burr=0.02, lean_um=20,
              steady_lean_um=25)
NO_HOLES = Hands(kind="none")


@dataclasses.dataclass
class Paper:
    thickness_shadow: float = 0.0    # share of the light that the rim takes from the ground behind
    out_of_square_mrad: float = 1.0
    size_mm: float = 0.15            # sd of width and height
    bow_um: float = 60.0             # sd of the middle of an edge against its ends
    rough_um: float = 6.0            # sd, over about 0.5 mm
    bevel_um: float = 3.0            # sd; an edge is there on one side and elsewhere on the other


@dataclasses.dataclass
class Passes:
    offset_mm: float = 0.35          # sd of each pass
    rotation_mrad: float = 1.5
    scale_ppm: float = 300           # of the printer: the same for both passes
    growth_ppm: float = 300          # the paper between the passes, across the grain; a third along
    shear_mrad: float = 0.2          # of the carriage against the feed, the same for both passes


class Hole:
    def __init__(self, hands, x, y, turned_round, rng):
        self.x, self.y = x, y
        self.radius = hands.radius_mm * (1 + 0.02 * rng.standard_normal())
        k = np.arange(2, 7)
        draw = lambda sd: (rng.standard_normal((2, k.size)) * sd / np.sqrt(k / 2)).T
        self.k, self.shared = k, draw(hands.rough)
        self.side = {"recto": draw(hands.burr), "verso": draw(hands.burr)}
        way = -1 if turned_round else 1
        lean = way * np.array([0.8, 0.6]) * hands.steady_lean_um + rng.normal(0, hands.lean_um, 2)
        self.lean = {"recto": lean / 2000, "verso": -lean / 2000}

    def inwards(self, side, x, y):
        """Distance from the rim, mm, positive in the hole; x, y in sheet recto."""
        dx, dy = x - self.x - self.lean[side][0], y - self.y - self.lean[side][1]
        angle = np.arctan2(dy, dx)
        rim = np.ones_like(angle)
        for k, (a, b), (c, d) in zip(self.k, self.shared, self.side[side]):
            rim += (a + c) * np.cos(k * angle) + (b + d) * np.sin(k * angle)
        return self.radius * rim - np.hypot(dx, dy)


class Edge:
    """One edge of the paper: distance inwards = coordinate towards the middle - profile(along)."""

    def __init__(self, paper, length, rng):
        self.grid = np.arange(-length / 2 - 5, length / 2 + 5, 0.25)
        t = self.grid / (length / 2)
        noise = np.convolve(rng.standard_normal(self.grid.size + 8), np.ones(3) / np.sqrt(3), "same")
        self.profile = {}
        shape = (rng.normal(0, paper.out_of_square_mrad / 1000) * self.grid
                 + paper.bow_um / 1000 * rng.standard_normal() * (1 - t * t)
                 + paper.rough_um / 1000 * noise[:self.grid.size])
        for side in ("recto", "verso"):
            self.profile[side] = shape + rng.normal(0, paper.bevel_um / 1000)

    def at(self, side, along):
        return np.interp(along, self.grid, self.profile[side]).astype(np.float32)


class Sheet:
    def __init__(self, geometry, rng, hands=PUNCH, paper=Paper(), passes=Passes()):
        self.paper_mm, self.turn = geometry["paper_mm"], geometry["turn"]
        self.mirror = frames.mirror(self.turn, self.paper_mm)
        self.shadow = paper.thickness_shadow
        w, h = (s + rng.normal(0, paper.size_mm) for s in self.paper_mm)
        self.size = (w, h)
        self.edges = {name: Edge(paper, w if name in "tb" else h, rng) for name in "lrtb"}
        steady = dict(scale_x=rng.normal(0, passes.scale_ppm) * 1e-6,
                      scale_y=rng.normal(0, passes.scale_ppm) * 1e-6,
                      shear=rng.normal(0, passes.shear_mrad) * 1e-3)
        grown = passes.growth_ppm * 1e-6 * rng.standard_normal()
        place = lambda: frames.affine(rng.normal(0, passes.offset_mm), rng.normal(0, passes.offset_mm),
                                      rng.normal(0, passes.rotation_mrad) * 1e-3, **steady)
        # What was printed first has grown with the paper since.
        growth = frames.affine(scale_x=grown, scale_y=grown / 3)
        self.passes = {"recto": growth @ place(), "verso": place()}
        # Further passes of a sheet that is fed several times: all fronts before the backs.
        self.another_pass = {"recto": lambda: growth @ place(), "verso": place}
        self.truth = frames.registration(self.passes["recto"], self.passes["verso"], self.mirror)
        self.holes = self._make_holes(geometry["holes"], hands, rng)

    def _make_holes(self, nominal, hands, rng):
        chosen = [h for h in nominal if h["kind"] == hands.kind]
        if hands.count and hands.count < len(chosen):
            chosen = [chosen[i] for i in sorted(rng.permutation(len(chosen))[:hands.count])]
        holes = []
        tool = {}
        for h in chosen:
            # A two-hole punch makes both holes of a short edge at one stroke.
            key = np.sign(h["y_mm"]) if hands.kind == "punch" else h["id"]
            if key not in tool:
                tool[key] = np.clip(rng.normal(0, hands.miss_mm, 2), -2, 2)
            at = np.array([h["x_mm"], h["y_mm"]]) + tool[key]
            x, y = frames.apply(self.passes["recto"], *at)
            holes.append(Hole(hands, x, y, h["id"] in TURNED_ROUND, rng))
        return holes

    def page_from_side(self, side):
        """3x3, place on that side of the sheet (in that side's view) -> place on its page."""
        return np.linalg.inv(self.passes[side])

    def recto_from_side(self, side):
        return self.mirror if side == "verso" else np.eye(3)

    def inwards(self, side, x, y):
        """Distance from the nearest edge, mm, positive on the paper; sheet recto."""
        w, h = self.size
        e = self.edges
        across = np.minimum(x + w / 2 - e["l"].at(side, y), w / 2 - e["r"].at(side, y) - x)
        down = np.minimum(y + h / 2 - e["t"].at(side, x), h / 2 - e["b"].at(side, x) - y)
        return np.minimum(across, down)


# The target numbers its pricks; the sheet is rotated by 180 degrees after the first four.
TURNED_ROUND = {"P5", "P6", "P7", "P8"}
