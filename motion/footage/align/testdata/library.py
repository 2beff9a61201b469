"""Photographs laid otherwise by a known shift, turn and scale, and what a general library for
pictures (scikit-image: splines of fifth order for laying, phase_cross_correlation and warp_polar
for finding) finds of it. Writes pairs of pictures and pairs.tsv into the folder that is named.

The photographs are those that scikit-image ships; their sources are in its data/README.txt."""

import inspect
import sys
import time
from pathlib import Path

import numpy as np
from skimage import data, feature, io, measure, registration, transform, util
from skimage.color import rgb2gray
from skimage.filters import difference_of_gaussians, window

WIDTH, HEIGHT = 400, 300
into = Path(sys.argv[1])
chance = np.random.default_rng(20261201)

photographs = {
    "camera": data.camera() / 255.0,
    "brick": data.brick() / 255.0,
    "gravel": data.gravel() / 255.0,
    "coffee": rgb2gray(data.coffee()),
    "astronaut": rgb2gray(data.astronaut()),
}


def laid(photo, x, y, turn, scale):
    """The middle of a photograph as a frame that lies so on the one that has not moved."""
    middle = np.array([(photo.shape[1] - 1) / 2, (photo.shape[0] - 1) / 2])
    angle = np.deg2rad(turn)
    forward = scale * np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    back = np.linalg.inv(forward)
    out = np.array([(WIDTH - 1) / 2, (HEIGHT - 1) / 2]) + [x, y]
    matrix = np.eye(3)
    matrix[:2, :2] = back
    matrix[:2, 2] = middle - back @ out
    return transform.warp(photo, transform.AffineTransform(matrix=matrix), output_shape=(HEIGHT, WIDTH), order=5, mode="reflect")


def filmed(frame, noise, light):
    return np.clip(frame * light + noise * chance.standard_normal(frame.shape), 0, 1)


def shift(a, b):
    found, _, _ = registration.phase_cross_correlation(a, b, upsample_factor=100)
    return -found[1], -found[0]


def turned(a, b):
    """Turn and scale from the magnitudes of the spectra in logarithmic polar coordinates."""
    radius = min(a.shape) // 8
    polar = []
    for picture in (a, b):
        seen = difference_of_gaussians(picture, 1, 20) * window("hann", picture.shape)
        size = np.abs(np.fft.fftshift(np.fft.fft2(seen, s=(512, 512))))
        polar.append(transform.warp_polar(size, radius=128, output_shape=(720, 512), scaling="log", order=1)[:360])
    found, _, _ = registration.phase_cross_correlation(polar[0], polar[1], upsample_factor=20, normalization=None)
    turn, step = -found[0] / 2, -found[1]
    return turn, np.exp(-step * np.log(128) / 512)


def by_features(a, b):
    """Shift, turn and scale by corners that are alike in both (ORB) and the most of them that agree
    (RANSAC): another way than spectra, and than blocks. NaN where too few agree."""
    points, looks = [], []
    for picture in (a, b):
        finder = feature.ORB(n_keypoints=800, fast_threshold=0.05)
        finder.detect_and_extract(picture)
        points.append(finder.keypoints[:, ::-1] - np.array([(WIDTH - 1) / 2, (HEIGHT - 1) / 2]))
        looks.append(finder.descriptors)
    same = feature.match_descriptors(looks[0], looks[1], cross_check=True)
    seed = "rng" if "rng" in inspect.signature(measure.ransac).parameters else "random_state"  # by its version
    pairs = (points[0][same[:, 0]], points[1][same[:, 1]])
    model, _ = measure.ransac(pairs, transform.SimilarityTransform, min_samples=3, residual_threshold=1, max_trials=2000, **{seed: 7})
    if model is None:
        return [float("nan")] * 4
    return [*model.translation, np.rad2deg(model.rotation), model.scale]


rows = []
for name, photo in photographs.items():
    cases = []
    for _ in range(4):
        cases.append(("shift", *chance.uniform(-30, 30, 2), 0.0, 1.0, 0.01, 1.0))
    cases.append(("little", *chance.uniform(-1, 1, 2), 0.0, 1.0, 0.005, 1.0))
    cases.append(("grain", *chance.uniform(-20, 20, 2), 0.0, 1.0, 0.05, 1.0))
    cases.append(("light", *chance.uniform(-20, 20, 2), 0.0, 1.0, 0.01, 0.7))
    for _ in range(3):
        cases.append(("turn", *chance.uniform(-15, 15, 2), chance.uniform(-15, 15), chance.uniform(0.9, 1.15), 0.01, 1.0))
    for kind, x, y, turn, scale, noise, light in cases:
        a, b = filmed(laid(photo, 0, 0, 0, 1), noise, 1.0), filmed(laid(photo, x, y, turn, scale), noise, light)
        n = len(rows)
        io.imsave(into / f"{n:03d}a.png", util.img_as_ubyte(a), check_contrast=False)
        io.imsave(into / f"{n:03d}b.png", util.img_as_ubyte(b), check_contrast=False)
        began = time.perf_counter()
        found = [*shift(a, b), 0.0, 1.0] if kind != "turn" else [float("nan"), float("nan"), *turned(a, b)]
        took = time.perf_counter() - began
        features = by_features(a, b) if kind == "turn" else [float("nan")] * 4
        rows.append([name, kind, x, y, turn, scale, *found, took, *features])

with open(into / "pairs.tsv", "w", encoding="utf-8") as table:
    table.write("photograph\tkind\tx\ty\tturn\tscale\tfound_x\tfound_y\tfound_turn\tfound_scale\tseconds\tfeatures_x\tfeatures_y\tfeatures_turn\tfeatures_scale\n")
    for row in rows:
        table.write("\t".join(v if isinstance(v, str) else f"{v:.9g}" for v in row) + "\n")
