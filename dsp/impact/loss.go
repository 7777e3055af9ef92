package impact

import (
	"cmp"
	"slices"

	"earshot/dsp/known"
)

// loses draws lost buffers, which are filled with zeros.
func (d dice) loses() step {
	size, apart := one(d, 256, 480, 512, 960, 1024, 2048, 4096), d.ratio(0.6, 8)
	return func(tk *take) {
		for at := tk.in(0, apart); ; at += tk.in(0.3, 1.7) * apart {
			from := int(at*tk.rate) / size * size
			to := from + size*tk.count(1, 2)
			if to >= len(tk.x) {
				break
			}
			clear(tk.x[from:to])
			tk.lost(float64(from)/tk.rate, float64(to)/tk.rate)
		}
		slices.SortStableFunc(tk.truth.Others, func(a, b known.Other) int { return cmp.Compare(a.Start, b.Start) })
	}
}

// lost notes a stretch without sound, and that a firing with an end in it is not plain.
func (tk *take) lost(from, to float64) {
	hits := func(k known.Stroke) bool { return k.Start-0.002 < to && k.Stop+0.004 > from }
	for i := range tk.truth.Firings {
		f := &tk.truth.Firings[i]
		if hits(f.Open) || hits(f.Close) {
			f.Plain = false
		}
	}
	tk.truth.Others = append(tk.truth.Others, known.Other{Kind: "lost buffer", Start: from, End: to})
}

// skips draws a recorder that stops after some s of quiet, and goes on with the next sound.
func (d dice) skips() step {
	after, over := d.ratio(0.15, 1), d.in(5, 10)
	return func(tk *take) {
		tk.truth.Skips = after
		cuts := tk.silences(after, usual(tk.x, tk.rate)*amplitude(over))
		for i := range tk.truth.Firings {
			f := &tk.truth.Firings[i]
			for _, c := range cuts {
				if f.Closes && c.from < f.Close.Stop && c.to > f.Open.Start {
					f.Plain = false
				}
			}
		}
		tk.cut(cuts)
	}
}

// silences returns the stretches in s that the recorder leaves out.
func (tk *take) silences(after, threshold float64) []pause {
	const block = 0.02
	n := int(block * tk.rate)
	var cuts []pause
	last := 0
	for i, e := range envelope(tk.x, n) {
		if e < threshold && (i+1)*n <= len(tk.x) {
			continue
		}
		from, to := float64(last*n)/tk.rate+after, float64(i*n)/tk.rate
		if to > from {
			cuts = append(cuts, pause{from, to})
		}
		last = i + 1
	}
	return cuts
}

// cut takes stretches out of the sound and out of the times of the truth.
func (tk *take) cut(cuts []pause) {
	var kept []float64
	at := 0
	for i, c := range cuts {
		from, to := int(c.from*tk.rate), min(int(c.to*tk.rate), len(tk.x))
		cuts[i] = pause{float64(from) / tk.rate, float64(to) / tk.rate}
		kept = append(kept, tk.x[at:from]...)
		at = to
	}
	tk.x = append(kept, tk.x[at:]...)
	retime(tk.truth, func(t float64) float64 {
		gone := 0.0
		for _, c := range cuts {
			gone += max(0, min(t, c.to)-c.from)
		}
		return t - gone
	})
}
