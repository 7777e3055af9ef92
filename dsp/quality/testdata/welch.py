# Writes welch.json: Welch's estimate by SciPy, to hold ours to.
# Debian's python3-scipy 1.10.1: /usr/bin/python3 welch.py > welch.json
import json
import numpy as np
from scipy import signal


def noise(n):
    """A linear congruential generator, the same in any language (ISO C's example)."""
    x, s = [], 1
    for _ in range(n):
        s = (s * 1103515245 + 12345) % 2**31
        x.append(s / 2**30 - 1)
    return np.array(x)


cases = []
for rate, segment, length in [(48000, 1024, 2048), (44100, 256, 2000), (8000, 512, 512)]:
    t = np.arange(length) / rate
    x = 0.1 * noise(length) + 0.25 + 0.5 * np.sin(2 * np.pi * 1000 * t)
    f, p = signal.welch(x - x.mean(), rate, window=signal.windows.hann(segment, sym=True),
                        nperseg=segment, noverlap=segment // 2, detrend=False, scaling="density")
    cases.append({"rate": rate, "segment": segment, "length": length, "step_hz": f[1], "density": p.tolist()})
json.dump(cases, __import__("sys").stdout)
