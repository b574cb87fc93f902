"""The kernels behind the bench readings, in NumPy and SciPy: the peer of measuring.bench.ts and answer.bench.ts.

Called as readings.py FILE.wav [FROM:TO ...], sample numbers of spans that are measured besides the whole. Prints seconds that
passed, and seconds of a processor. Values alone: no bounds, no look at whether the sampling supports them.

Levels (extremes, percentiles, mean), noise from second differences, crossings with hysteresis interpolated to their
time, transitions between 0.3 and 0.6 V, rich share, line length, energy in a band, lag by correlation.
"""

import sys
import time

import numpy as np
from scipy import fft, io, signal

rate, frames = io.wavfile.read(sys.argv[1])
sensors = [np.ascontiguousarray(frames[:, c]) for c in (0, 1)]


def crossings(x, level, h):
    side = np.zeros(len(x), np.int8)
    side[x > level + h] = 1
    side[x < level - h] = -1
    at = np.flatnonzero(side)
    turns = at[1:][np.diff(side[at]) != 0]
    before, after = x[turns - 1], x[turns]
    return turns - 1 + (level - before) / np.where(after == before, 1, after - before)


def readings(x):
    np.min(x), np.max(x), np.mean(x, dtype=np.float64)
    np.percentile(x, [5, 50, 95])
    noise = np.median(np.abs(np.diff(x, 2))) / 0.6745 / np.sqrt(6)
    h = max(0.05, 4 * noise)
    found = crossings(x, 0.45, h)
    crossings(x, 0.3, h / 2), crossings(x, 0.6, h / 2)
    crossings(x, float(np.mean(x)), h)
    np.count_nonzero(x > 0.45) / len(x)
    np.sum(np.abs(np.diff(x)), dtype=np.float64)
    return found


def measure(pair):
    for x in pair:
        readings(x)
    centred = [x - np.mean(x) for x in pair]
    size = fft.next_fast_len(2 * len(centred[0]), real=True)
    spectra = [fft.rfft(x, size) for x in centred]
    fft.irfft(np.conj(spectra[0]) * spectra[1], size).argmax()
    for spectrum in spectra:
        np.sum(np.abs(spectrum[: len(spectrum) // 100]) ** 2)


spans = [tuple(map(int, span.split(":"))) for span in sys.argv[2:]]
start, busy = time.perf_counter(), time.process_time()
measure(sensors)
for a, b in spans:
    measure([np.ascontiguousarray(x[a:b]) for x in sensors])
print(time.perf_counter() - start, time.process_time() - busy)
