"""Results of SciPy and NumPy on shared inputs, as JSON on standard output.

The inputs are made here from closed forms and integer arithmetic, so that both sides hold the same doubles; they are
written into the file as well. Run: /usr/bin/python3 tests/reference/scipy.py > tests/reference/scipy.json
"""

import json
import sys

sys.path.pop(0)  # this file's own folder: its name would hide the package

import numpy as np  # noqa: E402
import scipy  # noqa: E402
from scipy import signal  # noqa: E402


def lcg(count, seed):
    """Park & Miller's minimal standard generator (CACM 31 (1988) 1192), 0 to 1."""
    state, out = seed, []
    for _ in range(count):
        state = state * 16807 % 2147483647
        out.append(state / 2147483647)
    return np.array(out)


def hysteresis_crossings(x, level, h):
    """Times in samples, by linear interpolation of the last step over the level, as plainly as possible."""
    side, found, last = 0, [], 0
    for i, v in enumerate(x):
        now = 1 if v > level + h else -1 if v < level - h else 0
        if now == 0:
            continue
        if side and now != side:
            k = next(k for k in range(last, i) if (x[k] - level) * side > 0 >= (x[k + 1] - level) * side)
            found.append(k + (level - x[k]) / (x[k + 1] - x[k]))
        side, last = now, i
    return found


n = 1024
step = 0.01
t = np.arange(n) * step
wave = 0.45 + 0.4 * np.sin(2 * np.pi * 1.3 * t) + 0.05 * np.sin(2 * np.pi * 7.1 * t + 1)
noisy = wave + 0.02 * (lcg(n, 7) - 0.5)
later = np.roll(noisy, 15)

centred = noisy - noisy.mean()

result = {
    "scipy": scipy.__version__,
    "numpy": np.__version__,
    "input": {"step": step, "wave": wave.tolist(), "noisy": noisy.tolist()},
    "crossings": hysteresis_crossings(wave, 0.45, 0.05),
    "percentiles": np.percentile(noisy, [0, 5, 25, 50, 75, 95, 100]).tolist(),
    "medfilt5": signal.medfilt(noisy, 5).tolist(),
    "medfilt9": signal.medfilt(noisy, 9).tolist(),
    "butter": {
        str(order): signal.sosfiltfilt(signal.butter(order, 5, fs=1 / step, output="sos"), noisy).tolist()
        for order in (1, 2, 3, 4)
    },
    "correlate": signal.correlate(later - later.mean(), centred, mode="full")[n - 1 - 40 : n + 40].tolist(),
}
print(json.dumps(result))
