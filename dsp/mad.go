package dsp

// NormalMAD is the median absolute deviation of a normal distribution in units of its
// standard deviation: the upper quartile of the standard normal.
const NormalMAD = 0.6744897501960817
