package report

import (
	"earshot/shutter/judge"
)

// AfterRest compares the first firing after the rest that was told with the later ones at its
// speed. It is counted like any other.
type AfterRest struct {
	Firing *int     `json:"firing"` // index into Document.Firings; nil where none can be told to be the first
	Later  []int    `json:"later"`  // indices into Document.Firings
	Slower *float64 `json:"slower_stops"`
	Spread *float64 `json:"later_spread_stops"`
}

func newRest(c judge.Check, l Lens) *AfterRest {
	if l.Rested == "" {
		return nil
	}
	w, ok := c.FirstFiring()
	if !ok {
		return &AfterRest{Later: []int{}}
	}
	return &AfterRest{Firing: &w.Firing, Later: each(w.Later, same), Slower: some(w.Slower, 5, w.Known), Spread: some(w.Spread, 5, w.Known && len(w.Later) > 1)}
}

// firings are all that it speaks of.
func (r *AfterRest) firings() []int {
	if r == nil || r.Firing == nil {
		return nil
	}
	return append([]int{*r.Firing}, r.Later...)
}

// FirstAfterRest names the first firing after the rest that was told, and gives its
// index in Document.Firings; false where there is none.
func (d Document) FirstAfterRest() (firing int, name string, ok bool) {
	if d.Rest == nil || d.Rest.Firing == nil {
		return 0, "", false
	}
	return *d.Rest.Firing, "first after " + d.Lens.TheRest(), true
}
