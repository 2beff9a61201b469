#!/usr/bin/env python3
"""Least times of paces along closed paths under limits of speed, acceleration and jerk.

Shares nothing with the planner: the square z of the pace is a value at each of N places
of the path, with central differences for its slopes; time is the trapezium rule; limits
are held at each place and, z being straight between, half way to the next: differences
over two steps alone leave a value at every other place unseen. The least is looked for by a sequence of linear programmes with
a trust region (R. Fletcher and E. Sainz de la Maza, Math. Prog. 43:235-256, 1989,
DOI 10.1007/BF01582292), each solved by HiGHS as scipy has it, from several starts; the best counts.
A path is q(s) = sum of a_k sin 2 pi k s + b_k cos 2 pi k s, s from 0 to 1, in mm.

    python3 quickest_paces.py > quickest_paces.tsv
"""
import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_matrix, diags, identity, vstack

N = 300


def derivatives(coeffs, s):
    q = np.zeros((4, len(s)))
    for k, (a, b) in enumerate(coeffs, 1):
        w = 2 * np.pi * k
        sin, cos = np.sin(w * s), np.cos(w * s)
        for d, (u, v) in enumerate([(sin, cos), (cos, -sin), (-sin, -cos), (-cos, sin)]):
            q[d] += w**d * (a * u + b * v)
    return q


def matrices(n):
    """What z, z' and z'' are of the values: at the places, then half way between."""
    h = 1 / n
    ones = np.ones(n)
    wrap = lambda lo, mid, hi: (diags([lo * ones[1:], mid * ones, hi * ones[1:]], [-1, 0, 1]) +
                                csr_matrix(([lo, hi], ([0, n - 1], [n - 1, 0])), shape=(n, n))).tocsr()
    half, bends = wrap(0, 0.5, 0.5), wrap(1 / h**2, -2 / h**2, 1 / h**2)
    return (vstack([identity(n), half]).tocsr(), vstack([wrap(-1 / (2 * h), 0, 1 / (2 * h)), wrap(0, -1 / h, 1 / h)]).tocsr(),
            vstack([bends, half @ bends]).tocsr())


def seconds(z):
    return np.mean(1 / np.sqrt(z))


def worst(c, axes, limits, m):
    """The greatest share of any limit."""
    z, dz, ddz, most = m[0] @ c, m[1] @ c, m[2] @ c, 0
    for q, (speed, acc, jerk) in zip(axes, limits):
        most = max(most, np.max(np.abs(q[1]) * np.sqrt(z) / speed), np.max(np.abs(q[2] * z + q[1] * dz / 2) / acc),
                   np.max(np.sqrt(z) * np.abs(q[3] * z + 1.5 * q[2] * dz + q[1] * ddz / 2) / jerk))
    return most


def slow(z, axes, limits, m):
    """z slowed evenly until all limits are kept."""
    lo, hi = 0.0, 1.0
    if worst(z, axes, limits, m) <= 1:
        return z
    for _ in range(60):
        mid = (lo + hi) / 2
        if worst(z * mid, axes, limits, m) <= 1:
            lo = mid
        else:
            hi = mid
    return z * lo


def least(coeffs, limits, start):
    s = np.r_[np.arange(N), np.arange(N) + 0.5] / N
    axes = [derivatives(c, s) for c in coeffs]
    m = matrices(N)
    z = slow(start, axes, limits, m)
    trust = 0.3
    for _ in range(200):
        rows, left = [], []
        at, dz, ddz = (k @ z for k in m)
        root = np.sqrt(at)
        for q, (speed, acc, jerk) in zip(axes, limits):
            rows.append(diags(q[1]**2 / speed**2) @ m[0])
            left.append(np.ones(2 * N))
            a = diags(q[2] / acc) @ m[0] + diags(q[1] / (2 * acc)) @ m[1]
            rows += [a, -a]
            left += [np.ones(2 * N), np.ones(2 * N)]
            inner = q[3] * at + 1.5 * q[2] * dz + q[1] * ddz / 2
            g = root * inner / jerk
            slope = (diags(inner / (2 * root) + root * q[3]) @ m[0] + diags(1.5 * root * q[2]) @ m[1] + diags(root * q[1] / 2) @ m[2]) / jerk
            rows += [slope, -slope]
            left += [1 - g + slope @ z, 1 + g - slope @ z]
        r = linprog(-z**-1.5, A_ub=vstack(rows).tocsr(), b_ub=np.concatenate(left),
                    bounds=np.c_[z * (1 - trust), z * (1 + trust)], method="highs")
        if r.status != 0:
            trust /= 2
            continue
        new = slow(r.x, axes, limits, m)
        if seconds(new) < seconds(z) * (1 - 1e-6):
            z, trust = new, min(0.5, trust * 1.5)
        else:
            trust /= 2
            if trust < 1e-4:
                break
    return seconds(z)


def main():
    rng = np.random.default_rng(1)
    print("# axes\tlimits mm/s mm/s2 mm/s3, an axis after the other\tcoefficients a1 b1 a2 b2 ..., axes separated by ;\tleast s")
    for case in range(24):
        count = 1 + case % 2
        coeffs, limits = [], []
        for _ in range(count):
            terms = rng.integers(2, 6)
            coeffs.append([tuple(np.round(rng.normal(0, 80 / k**1.5, 2), 3)) for k in range(1, terms + 1)])
            speed = float(np.round(10**rng.uniform(2, 2.7)))
            acc = float(np.round(speed * 10**rng.uniform(0.3, 1)))
            jerk = float(np.round(acc * 10**rng.uniform(0, 1.3)))
            limits.append((speed, acc, jerk))
        starts = [np.full(N, 10.0)] + [10 * np.exp(0.5 * np.interp(np.arange(N) / N, np.linspace(0, 1, 13), np.r_[w, w[0]]))
                                        for w in (rng.normal(0, 1, 12) for _ in range(2))]
        best = min(least(coeffs, limits, z) for z in starts)
        print("%d\t%s\t%s\t%.5f" % (count, " ".join("%g %g %g" % l for l in limits),
                                    ";".join(" ".join("%g %g" % t for t in c) for c in coeffs), best), flush=True)


main()
