# Writes line.json: the straight line of JCGM 100:2008, example H.3, by SciPy, to hold
# ours to. With Debian's python3-scipy 1.10.1:
#   cd dsp/clock/testdata && /usr/bin/python3 line.py > line.json
import json
import sys
import numpy as np
from scipy import stats

x = np.array([21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]) - 20
y = np.array([-171, -169, -166, -159, -164, -165, -156, -157, -159, -161, -160]) / 1000
l = stats.linregress(x, y)
json.dump({
    "slope": l.slope, "intercept": l.intercept, "u_slope": l.stderr, "u_intercept": l.intercept_stderr,
    "mad": stats.median_abs_deviation(y - l.intercept - l.slope * x, center=lambda x, axis: 0.0, scale="normal"),
}, sys.stdout)
