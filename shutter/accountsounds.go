package shutter

import (
	"cmp"
	"fmt"
	"slices"
)

// nearby lists the sounds from one time to another that stand out, the loudest of them
// where they are many.
func (a *Account) nearby(from, to float64) []Nearby {
	const most = 10
	var all []Nearby
	for i := range a.r.sounds {
		if s := &a.r.sounds[i]; s.at >= from && s.at <= to && s.surprise() > 0 {
			all = append(all, Nearby{At: s.at, Level: s.level, Over: s.stand, Is: a.is(i)})
		}
	}
	slices.SortFunc(all, func(x, y Nearby) int { return cmp.Or(cmp.Compare(len(y.Is), len(x.Is)), cmp.Compare(y.Level, x.Level)) })
	all = all[:min(len(all), most)]
	slices.SortFunc(all, func(x, y Nearby) int { return cmp.Compare(x.At, y.At) })
	return all
}

// number is what the i-th firing of the clip is called.
func (a *Account) number(i int) int { return a.Before + i + 1 }

// is says which end of which firing sound i is; empty for none.
func (a *Account) is(i int) string {
	for k, p := range a.made {
		switch i {
		case p.open:
			return fmt.Sprintf("opening of firing %d", a.number(k))
		case p.close:
			return fmt.Sprintf("closing of firing %d", a.number(k))
		}
	}
	return ""
}
