"""The oversizes of profile_golden_test.cpp, computed apart from the program: NumPy and SciPy, from
the definitions. Prints one line a case: count, growth, coverage, x mm, y mm (+-0.5 %).

Method: the oversize that would do if the estimates were the truth (400,000 sheets, corner by
corner), times k(n, f_eff) / z. f_eff = f / tr(H^2), H = L' (d ln q^2 / dS) L by differences
(Satterthwaite, Biometrics Bulletin 2, 1946), f where
the direction is estimated as well; k the exact two-sided factor (Krishnamoorthy & Mathew,
Statistical Tolerance Regions, 2009, section 2.3).
"""

import numpy as np
from scipy import integrate, optimize, stats

FEEDS = np.array([[.42, -.31, 1.2], [.15, -.55, .1], [.61, -.12, 2.3], [.33, -.47, .9],
                  [.05, -.20, -.6], [.52, -.38, 1.5], [.27, -.66, .4], [.38, -.25, 1.8]])
WIDTH, HEIGHT = 63.0, 88.0
CONFIDENCE = 0.90
CENTRES = [(x * WIDTH, y * HEIGHT) for x in (-1, 0, 1) for y in (-1, 0, 1)]


def needed(sheets, centre):
    """How far the edges of one card fall short, left-right and top-bottom, mm."""
    dx, dy, mrad = sheets.T
    x = y = np.zeros(len(sheets))
    for sx in (-0.5, 0.5):
        for sy in (-0.5, 0.5):
            px, py = centre[0] + sx * WIDTH, centre[1] + sy * HEIGHT
            x = np.maximum(x, np.abs(dx - mrad * 1e-3 * py))
            y = np.maximum(y, np.abs(dy + mrad * 1e-3 * px))
    return x, y


def values(sheets, direction, per_sheet):
    """Multiples of the direction that cards (sheets) need; a side of 0 does not count."""
    all_cards = []
    for centre in CENTRES:
        x, y = needed(sheets, centre)
        parts = [v / d for v, d in ((x, direction[0]), (y, direction[1])) if d > 0]
        all_cards.append(np.max(parts, axis=0))
    return np.max(all_cards, axis=0) if per_sheet else np.concatenate(all_cards)


def factor(n, dof, coverage):
    def half_width(z):
        off = z / np.sqrt(n)
        return optimize.brentq(
            lambda r: stats.norm.cdf(off + r) - stats.norm.cdf(off - r) - coverage, 1e-9, off + 9)

    nodes = np.linspace(0, 8, 801)
    widths = np.array([half_width(z) for z in nodes])

    def excess(k):
        inside = stats.chi2.sf(dof * (widths / k) ** 2, dof)
        return integrate.simpson(2 * stats.norm.pdf(nodes) * inside, x=nodes) - CONFIDENCE

    return optimize.brentq(excess, 1, 30)


def main():
    n = len(FEEDS)
    dof = n - 1
    spread = np.cov(FEEDS.T)
    root = np.linalg.cholesky(spread)
    rng = np.random.default_rng(20261127)
    z = rng.standard_normal((400000, 3))

    def quantile(covariance, direction, per_sheet, share):
        sheets = z @ np.linalg.cholesky(covariance).T
        return np.quantile(values(sheets, direction, per_sheet), share)

    for per_sheet in (False, True):
        for growth in ("equal", "proportional", "per-axis"):
            for coverage in (0.95, 0.99):
                if growth == "equal":
                    direction = np.array([1.0, 1.0])
                elif growth == "proportional":
                    direction = np.array([WIDTH, HEIGHT]) / HEIGHT
                else:
                    share = 1 - (1 - coverage) / 2
                    direction = np.array([quantile(spread, (1, 0), per_sheet, share),
                                          quantile(spread, (0, 1), per_sheet, share)])
                q = quantile(spread, direction, per_sheet, coverage)
                step = 0.1
                h = np.zeros((3, 3))
                for i in range(3):
                    for j in range(i + 1):
                        e = np.zeros((3, 3))
                        e[i, j] = e[j, i] = step
                        up, down = (quantile(root @ (np.eye(3) + s * e) @ root.T, direction,
                                             per_sheet, coverage) for s in (1, -1))
                        slope = np.log(up / down) / step
                        h[i, j] = h[j, i] = slope if i == j else slope / 2
                f_eff = dof / np.trace(h @ h)
                if growth == "per-axis":
                    f_eff = dof  # the direction comes from the same feeds
                bound = q * factor(n, f_eff, coverage) / stats.norm.ppf((1 + coverage) / 2)
                print("sheet" if per_sheet else "card", growth, coverage,
                      f"{bound * direction[0]:.4f} {bound * direction[1]:.4f}",
                      f"(trace {np.trace(h):.3f}, f_eff {f_eff:.2f})")


main()
