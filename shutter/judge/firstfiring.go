package judge

import "earshot/shutter"

// FirstFiring compares the first firing of a sitting with the later ones at its speed. After a rest a shutter may be slow once and then behave for an afternoon.
type FirstFiring struct {
	Firing int     // index into Check.Firings
	Later  []int   // those at its speed that count, indices into Check.Firings
	Known  bool    // it counts as well, and there are later ones
	Slower float64 // stops longer than their median; 0 unless Known
	Spread float64 // of the later ones, stops; 0 for one
}

// FirstFiring compares the first firing with the later ones. It is false where no firing is
// known to be the first: nothing was heard, or there are several clips in unknown order.
func (c Check) FirstFiring() (FirstFiring, bool) {
	if len(c.Firings) == 0 || c.Firings[0].Clip != c.Firings[len(c.Firings)-1].Clip {
		return FirstFiring{}, false
	}
	var (
		w     = FirstFiring{Later: []int{}}
		first = c.Firings[0]
		x     []float64
	)
	for i, f := range c.Firings {
		if i > 0 && f.Judged && first.Mark != nil && *f.Mark == *first.Mark {
			w.Later, x = append(w.Later, i), append(x, f.Deviation)
		}
	}
	if w.Known = first.Judged && len(x) > 0; w.Known {
		w.Slower, w.Spread = first.Deviation-shutter.Median(x), shutter.Range(x)
	}
	return w, true
}
