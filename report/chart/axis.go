package chart

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot"
)

// farthest bounds the axis, so that one firing far off leaves the others legible.
const farthest = 4.0

// axisRange holds the limits with room for their names, and all firings that count. A doubtful
// firing far off may be another sound, and does not widen it.
func axisRange(f Figure) (low, high float64) {
	edge := f.Service + max(0.25, f.Service/2)
	low, high = -edge, edge
	for _, c := range f.Columns {
		for _, p := range c.Points {
			if !p.Doubtful {
				low, high = min(low, p.Deviation-0.15), max(high, p.Deviation+0.15)
			}
		}
		if m := c.Mean; m != nil && c.Judged() {
			low, high = m.widen(low, high)
		}
		if c.Before != nil {
			low, high = c.Before.widen(low, high)
		}
	}
	if f.anyHung() {
		high += (high - low) * 0.12
	}
	return max(low, -farthest), min(high, farthest)
}

// widen makes room for the mean and its range.
func (m Mean) widen(low, high float64) (float64, float64) {
	return min(low, m.Deviation-m.U95-0.1), max(high, m.Deviation+m.U95+0.1)
}

func (f Figure) anyHung() bool {
	return f.any(func(p Point) bool { return p.Hung })
}

// inside tells whether a firing is drawn at its place, not as an arrow at the edge.
func (f Figure) inside(p Point) bool {
	return !p.Hung && p.Deviation >= f.Low && p.Deviation <= f.High
}

func (f Figure) any(is func(Point) bool) bool {
	for _, c := range f.Columns {
		for _, p := range c.Points {
			if is(p) {
				return true
			}
		}
	}
	return false
}

// ticks are at thirds of a stop, the steps of a lens or meter, or at whole stops
// where the axis is long.
func ticks(low, high float64) plot.ConstantTicks {
	parts := 3
	if high-low > 3 {
		parts = 1
	}
	var out plot.ConstantTicks
	for i := int(math.Ceil(low * float64(parts))); float64(i) <= high*float64(parts); i++ {
		out = append(out, plot.Tick{Value: float64(i) / float64(parts), Label: tickLabel(i, parts)})
	}
	return out
}

func tickLabel(i, parts int) string {
	sign := "+"
	switch {
	case i == 0:
		return "0"
	case i < 0:
		sign, i = "−", -i
	}
	label := ""
	if whole := i / parts; whole > 0 {
		label = fmt.Sprint(whole)
	}
	if rest := i % parts; rest > 0 {
		label += fmt.Sprintf(" %d/%d", rest, parts)
	}
	return sign + strings.TrimSpace(label)
}

// slots places n firings side by side in a column one unit wide about 0, with room
// for the mean at the right.
func slot(i, n int) float64 {
	const left, right, widest = -0.36, 0.12, 0.14
	step := min(widest, (right-left)/float64(max(n-1, 1)))
	middle := (left + right) / 2
	return middle + step*(float64(i)-float64(n-1)/2)
}

// meanAt is the place of the mean in its column. In a chart of two sittings the earlier mean is
// at beforeAt and the later one at afterAt.
const (
	meanAt            = 0.3
	beforeAt, afterAt = -0.17, 0.17
)
