# Writes kernels.json: what SciPy and NumPy make of the same samples, to hold the
# conditioning filter and the picker to. With Debian's python3-scipy 1.10.1:
#   cd dsp/testdata && /usr/bin/python3 kernels.py > kernels.json
import json
import sys
import numpy as np
from scipy import signal


def noise(n, seed):
    """A linear congruential generator, the same in any language (ISO C's example)."""
    x, s = [], seed
    for _ in range(n):
        s = (s * 1103515245 + 12345) % 2**31
        x.append(s / 2**30 - 1)
    return np.array(x)


def highpass(rate, offset):
    """A fourth-order Butterworth high-pass at 500 Hz of noise on an offset that had
    been there for ever."""
    sos = signal.butter(4, 500, "highpass", fs=rate, output="sos")
    x = noise(400, 1) + offset
    y, _ = signal.sosfilt(sos, x, zi=signal.sosfilt_zi(sos) * x[0])
    return {"rate": rate, "offset": offset, "filtered": y.tolist()}


def pick(seed, at, gain):
    """Where the AIC of Maeda is least, as ObsPy's documentation of aic_simple states
    it: k log var(x[:k]) + (N - k - 1) log var(x[k:]), both variances about their mean."""
    x = noise(240, seed)
    x[at:] *= gain
    n = len(x)
    aic = [k * np.log(np.var(x[:k])) + (n - k - 1) * np.log(np.var(x[k:])) for k in range(4, n - 4)]
    return {"seed": seed, "at": at, "gain": gain, "least": 4 + int(np.argmin(aic))}


json.dump({
    "highpass": [highpass(rate, offset) for rate in (8000, 44100, 48000, 96000, 384000) for offset in (0, 0.25)],
    "picks": [pick(seed, at, gain) for seed in range(1, 6) for at in (40, 120, 200) for gain in (10, 100)],
}, sys.stdout)
