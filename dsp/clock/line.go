package clock

import (
	"math"

	"earshot/dsp/internal/num"
)

// line is a straight line fitted by least squares through groups of points, each group
// at a height of its own, all of one slope (JCGM 100:2008, H.3, for one group).
type line struct {
	groups [][]point
	means  []point
	slope  float64
	sxx    float64 // sum of squares of k about the mean of its group
	ss     float64 // of the residuals
}

func fit(groups ...[]point) line {
	l := line{groups: groups, means: make([]point, len(groups))}
	var sxy float64
	for i, g := range groups {
		m := meanOf(g)
		l.means[i] = m
		for _, p := range g {
			l.sxx += (p.k - m.k) * (p.k - m.k)
			sxy += (p.k - m.k) * (p.late - m.late)
		}
	}
	if l.sxx > 0 {
		l.slope = sxy / l.sxx
	}
	for i, g := range groups {
		for _, p := range g {
			r := l.residual(i, p)
			l.ss += r * r
		}
	}
	return l
}

func meanOf(g []point) (m point) {
	for _, p := range g {
		m.k += p.k / float64(len(g))
		m.late += p.late / float64(len(g))
	}
	return m
}

func (l line) residual(group int, p point) float64 {
	m := l.means[group]
	return p.late - m.late - l.slope*(p.k-m.k)
}

func (l line) n() (n int) {
	for _, g := range l.groups {
		n += len(g)
	}
	return n
}

// df are the degrees of freedom of the scatter: a slope, and a height a group, are fitted.
func (l line) df() int {
	df := l.n() - 1
	for _, g := range l.groups {
		df -= min(1, len(g))
	}
	return max(df, 1)
}

func (l line) s() float64      { return math.Sqrt(l.ss / float64(l.df())) }
func (l line) uSlope() float64 { return l.s() / math.Sqrt(l.sxx) }

// at is the height of the line of a group at k, with its standard uncertainty.
func (l line) at(group int, k float64) (late, u float64) {
	m := l.means[group]
	return m.late + l.slope*(k-m.k), math.Hypot(l.s()/math.Sqrt(float64(len(l.groups[group]))), (k-m.k)*l.uSlope())
}

// offset is how much higher the second group lies than the first, 0 where one is empty.
func (l line) offset() float64 {
	if len(l.groups[0]) == 0 || len(l.groups[1]) == 0 {
		return 0
	}
	first, _ := l.at(0, 0)
	second, _ := l.at(1, 0)
	return second - first
}

// span is from the first point to the last, in k.
func (l line) span() float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, g := range l.groups {
		for _, p := range g {
			low, high = min(low, p.k), max(high, p.k)
		}
	}
	return max(0, high-low)
}

// far is how many standard deviations off the line a point is left out: of those that
// belong to it one in 16,000 is.
const far = 4

// trimmed fits a line and leaves out what lies far off it, until nothing does. The
// scatter is taken from the median of the residuals, which strangers hardly move.
func trimmed(groups ...[]point) line {
	for {
		l := fit(groups...)
		limit := far * robust(l)
		kept := make([][]point, len(groups))
		for i, g := range groups {
			for _, p := range g {
				if math.Abs(l.residual(i, p)) <= limit {
					kept[i] = append(kept[i], p)
				}
			}
		}
		left := fit(kept...)
		if left.n() == l.n() || left.n() < fewest {
			return l
		}
		groups = kept
	}
}

// robust is the standard deviation of the residuals told by their median size, as for a
// normal distribution (P. J. Rousseeuw and C. Croux, J. Am. Stat. Assoc. 88, 1993; from
// memory).
func robust(l line) float64 {
	var sizes []float64
	for i, g := range l.groups {
		for _, p := range g {
			sizes = append(sizes, math.Abs(l.residual(i, p)))
		}
	}
	if len(sizes) == 0 {
		return 0
	}
	return num.Nth(sizes, len(sizes)/2) / num.NormalMAD
}
