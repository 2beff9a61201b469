# Writes sweep_times.csv and sweep_record.csv: what a phone on a carriage would record of a
# sweep, where two masses stand on each other on springs and dampers. The equations of
# motion are solved by a general numerics library as one linear system; no closed form of a
# damped spring, and nothing of the program, is in it. Python 3.11, SciPy 1.10.1:
#
#     python3 sweep_response.py
import numpy as np
from scipy import linalg, signal

DT = 0.0005  # s, of the simulation
BOARD = 3000.0  # mm/s2, at which the board turns about
STROKE = 0.4  # mm
EXPECTED = 0.05  # damping
rng = np.random.default_rng(18)

# The lower mass on its foot, and the upper one on it; kg, N/m, N s/m.
m1, m2 = 2.0, 0.5
k1, k2 = 4300.0, 1650.0
c1, c2 = 9.0, 3.0
A = np.array([[0, 0, 1, 0], [0, 0, 0, 1],
              [-(k1 + k2) / m1, k2 / m1, -(c1 + c2) / m1, c2 / m1],
              [k2 / m2, -k2 / m2, c2 / m2, -c2 / m2]])
B = np.array([[0.0], [0.0], [-1.0], [-1.0]])  # of ways beside the foot, by its acceleration
C = np.array([A[2]])  # the acceleration of the lower mass itself, where the phone is
D = np.array([[0.0]])
poles = [p for p in linalg.eigvals(A) if p.imag > 0]
modes = sorted((abs(p) / 2 / np.pi, -p.real / abs(p)) for p in poles)


def ramp(v, t):
    "the acceleration that changes the speed by v from t on"
    n = max(1, int(round(abs(v) / BOARD / DT)))
    return int(round(t / DT)), n, v / (n * DT)


pushes, marks, bursts = [], [], []
t = 2.0


def mark_moves():
    global t
    for way in (10, -10, 33, -33):
        v = 40.0 * np.sign(way)
        lasts = abs(way) / 40.0
        pushes.append(ramp(v, t))
        pushes.append(ramp(-v, t + lasts))
        marks.append((t, t + lasts + 40.0 / BOARD))
        t += lasts + 40.0 / BOARD + 2.0


mark_moves()
low, high = 4.0, 13.0
n = int(np.ceil(np.log(high / low) / np.log1p(2 * EXPECTED / 3)))
periods = int(np.ceil(3 / (2 * np.pi * EXPECTED) * 1.5))
for f in low * (high / low) ** (np.arange(n + 1) / n):
    half = round(0.5 / f / DT) * DT
    f = 0.5 / half
    v = BOARD / 2 * (half - np.sqrt(half * half - 4 * STROKE / BOARD))
    pushes.append(ramp(v, t))
    for i in range(1, 2 * periods):
        pushes.append(ramp(2 * v * (-1) ** i, t + i * half))
    pushes.append(ramp(v, t + 2 * periods * half))
    w = 2 * np.pi * f
    bursts.append((t, t + 2 * periods * half, f, 4 / np.pi * BOARD * np.sin(w * v / BOARD)))
    t += 2 * periods * half + 0.3
t += 2.0
mark_moves()

foot = np.zeros(int(t / DT) + 1)
for at, count, a in pushes:
    foot[at:at + count] += a
when = np.arange(len(foot)) * DT
_, felt, _ = signal.lsim((A, B, C, D), foot, when, interp=False)

# The phone began 0.73 s late, samples unevenly, and its clock is 90 ppm fast.
step = 1 / 60
at = 0.73 + (np.arange(int((t - 0.73) / step)) + rng.uniform(-0.2, 0.2, int((t - 0.73) / step))) * step
seen = np.interp(at, when, felt[:]) + rng.normal(0, 15, len(at))
with open("sweep_record.csv", "w") as out:
    out.write("Time (s),Acceleration (m/s2)\n")
    for a, b in zip((at - 0.73) * (1 + 90e-6), seen):
        out.write("%.4f,%.3f\n" % (a, b / 1000))
with open("sweep_times.csv", "w") as out:
    out.write("# by sweep_response.py; the true modes are: " + "; ".join("%.6f Hz, %.6f" % m for m in modes) + "\n")
    out.write("axis,rail,mm\ndamping,%g\n" % EXPECTED)
    for m in marks:
        out.write("mark,%.4f,%.4f\n" % m)
    for b in bursts:
        out.write("burst,%.4f,%.4f,%.6f,%.4f\n" % b)
