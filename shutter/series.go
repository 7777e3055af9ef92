package shutter

import (
	"cmp"
	"math"
	"strconv"
)

// Series is the marks that go together on one kind of dial, slowest first.
type Series struct {
	Name  string
	Marks []Mark
}

// Binary is the modern series, from 4s to 1/1000. ISO 516:2019 and JIS B
// 7091:1992 fix the marks; the times behind them are exact doublings, which the
// dial only rounds (US Army Signal course SS0508, tables 1-3 to 1-5). 2s and 4s
// continue the doubling (common practice, no source).
func Binary() Series {
	s := Series{Name: "binary", Marks: []Mark{{"4s", 4}, {"2s", 2}, {"1", 1}}}
	for i, d := range []int{2, 4, 8, 15, 30, 60, 125, 250, 500, 1000} {
		s.Marks = append(s.Marks, Mark{fraction(d), math.Ldexp(1, -i-1)})
	}
	return s
}

// Older is the series of dials before it, whose marks are the times themselves:
// 1, 1/2, 1/5, 1/10, 1/25, 1/50, 1/100, 1/250 as on a leaf shutter of the 1930s,
// and 1/500 as on its faster fellows (common practice, no source).
func Older() Series {
	s := Series{Name: "older", Marks: []Mark{{"1", 1}}}
	for _, d := range []int{2, 5, 10, 25, 50, 100, 250, 500} {
		s.Marks = append(s.Marks, Mark{fraction(d), 1 / float64(d)})
	}
	return s
}

func fraction(denominator int) string { return "1/" + strconv.Itoa(denominator) }

// Find returns the mark of the series that is written label on the dial.
func (s Series) Find(label string) (Mark, bool) {
	for _, m := range s.Marks {
		if m.Label == label {
			return m, true
		}
	}
	return Mark{}, false
}

// Nearest returns the mark of the series whose exact time is nearest to a
// duration in s, and how far the duration is from it in stops, + is slow.
// The duration must be above 0.
func (s Series) Nearest(duration float64) (Mark, float64) {
	best, off := Mark{}, math.Inf(1)
	for _, m := range s.Marks {
		if d := math.Log2(duration / m.Nominal); math.Abs(d) < math.Abs(off) {
			best, off = m, d
		}
	}
	return best, off
}

// DialOrder compares two marks for slices.SortFunc: slowest first, as along a dial.
func DialOrder(a, b Mark) int {
	return cmp.Or(cmp.Compare(b.Nominal, a.Nominal), cmp.Compare(a.Label, b.Label))
}

// OfOneSeries returns the marks with the exact times that they have in each
// other's company. Only 1/250 and 1/500 need it, which stand on both kinds of dial
// and mean 1/256 and 1/512 s on the modern one: they follow the series that more
// of the other marks belong to alone, the binary one where neither has more.
func OfOneSeries(marks []Mark) []Mark {
	own := Binary()
	if votes(marks, Older(), Binary()) > votes(marks, Binary(), Older()) {
		own = Older()
	}
	settled := make([]Mark, len(marks))
	for i, m := range marks {
		settled[i] = m
		if shared, ok := own.Find(m.Label); ok && onBothDials(m.Label) {
			settled[i] = shared
		}
	}
	return settled
}

func onBothDials(label string) bool {
	_, binary := Binary().Find(label)
	_, older := Older().Find(label)
	return binary && older
}

// votes counts the different marks that are in the series and not in the other.
func votes(marks []Mark, in, notIn Series) int {
	seen := map[string]bool{}
	for _, m := range marks {
		_, ours := in.Find(m.Label)
		_, theirs := notIn.Find(m.Label)
		if ours && !theirs {
			seen[m.Label] = true
		}
	}
	return len(seen)
}
