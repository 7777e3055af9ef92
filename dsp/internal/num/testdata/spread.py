# Writes spread.json: what SciPy makes of the spread of the same values, to hold Spread to.
# With Debian's python3-scipy 1.10.1:
#   cd dsp/internal/num/testdata && /usr/bin/python3 spread.py > spread.json
import json
import sys
from scipy import stats

json.dump([{"x": x, "sd": stats.median_abs_deviation(x, scale="normal")} for x in ([0.1, 0.5, 0.2, 3.0, 0.25], [1.0, 1.5, 2.5, 2.0, 1.2, 9.0])], sys.stdout)
