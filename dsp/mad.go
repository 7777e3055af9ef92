package dsp

import "earshot/dsp/internal/num"

// NormalMAD is the median absolute deviation of a normal distribution in units of its
// standard deviation: the upper quartile of the standard normal.
const NormalMAD = num.NormalMAD
