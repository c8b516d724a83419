"""Affine maps in the project's one convention: x right, y down, mm from the centre of the page,
rotation positive clockwise as seen; and the registration that follows from two print passes."""

import numpy as np

# Verso place -> recto place straight behind it.
MIRRORS = {"long-edge": (-1.0, 1.0), "short-edge": (1.0, -1.0)}
KEYS = ("dx_mm", "dy_mm", "rotation_mrad", "scale_x_ppm", "scale_y_ppm", "shear_mrad")


def mirror(turn, paper_mm):
    """3x3. Turns are about the sheet as the page is oriented: the long edge of a landscape page is
    its horizontal axis."""
    w, h = paper_mm
    sx, sy = MIRRORS[turn]
    if w > h:
        sx, sy = -sx, -sy
    return np.diag([sx, sy, 1.0])


def affine(dx=0.0, dy=0.0, rotation=0.0, scale_x=0.0, scale_y=0.0, shear=0.0):
    """3x3 of p -> p + t + [[sx, -th + k], [th + k, sy]] p; mm and plain ratios."""
    return np.array([[1 + scale_x, -rotation + shear, dx],
                     [rotation + shear, 1 + scale_y, dy],
                     [0, 0, 1.0]])


def apply(m, x, y):
    return m[0, 0] * x + m[0, 1] * y + m[0, 2], m[1, 0] * x + m[1, 1] * y + m[1, 2]


def registration(recto_pass, verso_pass, m):
    """R = (M F M)^-1 B as the six numbers of the readings file, in the order of KEYS."""
    r = np.linalg.inv(m @ recto_pass @ m) @ verso_pass
    a = r[:2, :2] - np.eye(2)
    return np.array([r[0, 2], r[1, 2], (a[1, 0] - a[0, 1]) / 2 * 1e3, a[0, 0] * 1e6,
                     a[1, 1] * 1e6, (a[1, 0] + a[0, 1]) / 2 * 1e3])
