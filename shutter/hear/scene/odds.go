package scene

import (
	"math"
	"slices"
)

// describe fills in the features of a whole explanation, of one arc or more, whose score is
// known.
func (c *clip) describe(arcs []*arc, score float64) (f [numOdds]float64) {
	n := float64(len(arcs))
	k := c.learn(arcs)
	var scores, spans, opens []float64
	for i, a := range arcs {
		scores = append(scores, a.score)
		spans = append(spans, float64(c.s[a.close].at-c.s[a.open].at)*c.ms)
		opens = append(opens, float64(c.s[a.open].at)*c.ms)
		f[oBuzz] += float64(a.f[fBuzz]) / n
		f[oAlike] += float64(a.f[fAlike]) / n
		f[oReleased] += float64(a.f[fRelease]) / n
		f[oAlone] += float64(a.f[fBefore]+a.f[fLongBefore]+a.f[fAfter]+a.f[fLongAfter]) / 4 / n
		f[oTight] += (unlike(c.s[a.open].like, k.open) + unlike(c.s[a.close].like, k.close)) / 2 / neutral / n
		if i > 0 {
			repeat, _ := c.link(arcs[i-1], a)
			f[oRepeat] += repeat / (n - 1)
			f[oRepeats] += repeat / 10
		}
	}
	slices.Sort(scores)
	f[oBias] = 1
	f[oScore] = within(score/n/5, -1, 2)
	f[oWorst] = within(scores[len(scores)/4]/5, -1, 2)
	f[oCount] = math.Log(n) / 3
	f[oTotal] = within(score/30, -1, 3)
	f[oRepeats] = within(f[oRepeats], -0.5, 2)
	f[oFew] = within(3-n, 0, 2) / 2
	f[oRange] = within(math.Log2(slices.Max(spans)/slices.Min(spans))/4, 0, 1.5)
	f[oApart] = unlike(k.open, k.close) / 6
	strangers, busy := c.strangers(arcs, k)
	f[oStrangers] = within(math.Log1p(strangers/n)/2, 0, 1.5)
	f[oBusy] = within(math.Log1p(busy/n)/3, 0, 1.5)
	f[oBeat] = beat(opens)
	f[oShort] = within(math.Log2(40/median(spans)), 0, 2) / 2
	return f
}

// strangers counts the sounds in no firing that are as like its ends as these are, and all
// that are as loud.
func (c *clip) strangers(arcs []*arc, k *class) (like, loud float64) {
	const alike, weaker, after = 2.5, 10, 30 // dB, dB, ms
	inside := make([]bool, len(c.s))
	for _, a := range arcs {
		for q := a.first(); q < len(c.s) && c.s[q].at < c.s[a.close].at+after; q++ {
			inside[q] = true
		}
	}
	level := math.Min(k.openLevel, k.closeLevel) - weaker
	for q := range c.s {
		if s := &c.s[q]; !inside[q] && s.level[0] >= level {
			loud++
			if math.Min(unlike(s.like, k.open), unlike(s.like, k.close)) < alike {
				like++
			}
		}
	}
	return like, loud
}

// beat is how well times keep to whole numbers of one interval, as a clock's do and a hand's
// don't: the share that does, beyond the half that may by chance.
func beat(at []float64) float64 {
	const fewest, enough, near, parts = 4, 8, 0.03, 3
	if len(at) < fewest {
		return 0
	}
	var intervals []float64
	for i := 1; i < len(at); i++ {
		intervals = append(intervals, at[i]-at[i-1])
	}
	sorted := slices.Clone(intervals)
	slices.Sort(sorted)
	unit, best := sorted[len(sorted)/4], 0.0
	for part := 1.0; part <= parts; part++ {
		for off := 0.96; off <= 1.04; off += 0.005 {
			in := 0.0
			for _, x := range intervals {
				beats := x / (unit * off / part)
				if whole := math.Round(beats); whole > 0 && math.Abs(beats-whole) < near*math.Min(whole, 2) {
					in++
				}
			}
			best = math.Max(best, in/float64(len(intervals))/math.Sqrt(part))
		}
	}
	return within(2*best-1, 0, 1) * within(float64(len(intervals))/enough, 0, 1)
}
