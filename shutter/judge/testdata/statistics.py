# Writes statistics.json: figures of SciPy and statsmodels, to hold ours to. With Debian's
# python3-scipy 1.10.1 and python3-statsmodels 0.13.5:
#   cd shutter/judge/testdata && /usr/bin/python3 statistics.py > statistics.json
import json
import sys
import numpy as np
from scipy import stats
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.weightstats import CompareMeans, DescrStatsW

# The hours of sleep gained by two drugs (Student, Biometrika 6, 1908).
SLEEP = [[0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
         [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4]]


def welch(a, b):
    both = CompareMeans(DescrStatsW(a), DescrStatsW(b))
    t, p, df = both.ttest_ind(usevar="unequal")
    low, high = both.tconfint_diff(0.05, usevar="unequal")
    return {"a": a, "b": b, "t": t, "p": p, "df": df, "half": (high - low) / 2}


def holm(p):
    return {"p": p, "corrected": multipletests(p, method="holm")[1].tolist()}


def falling(n, swaps):
    """n falling values, with so many neighbours put right, and the exact P of so low an S."""
    x = list(range(n, 0, -1))
    left, i = swaps, 0
    while left:
        if x[i] > x[i + 1]:
            x[i], x[i + 1], left = x[i + 1], x[i], left - 1
        i = (i + 1) % (n - 1)
    p = stats.kendalltau(range(n), x, method="exact", alternative="less").pvalue
    return {"x": x, "p": p}


json.dump({
    "welch": [welch(*SLEEP), welch([0.01, -0.02, 0.03], [0.8, 0.85, 0.7, 0.79]), welch([0.5, 0.5001], [0.2, 0.3, 0.9, 0.1, 0.4])],
    "holm": [holm([0.01, 0.04, 0.03, 0.005]), holm([0.2, 0.2, 0.001, 0.9, 0.04, 0.013]), holm([0.7, 0.6])],
    "trend": [falling(n, swaps) for n in range(3, 13) for swaps in range(0, n * (n - 1) // 2, 2)],
    "student": [{"df": df, "t": stats.t.ppf(0.975, df)} for df in [*range(1, 31), 50, 100, 1000]],
    "range": [{"p": p, "n": n, "q": stats.studentized_range.ppf(p, n, np.inf)} for p in (0.95, 0.99) for n in [*range(2, 11), 20]],
    "mad": [{"x": x, "sd": stats.median_abs_deviation(x, scale="normal")} for x in ([0.1, 0.5, 0.2, 3.0, 0.25], [1.0, 1.5, 2.5, 2.0, 1.2, 9.0])],
}, sys.stdout)
