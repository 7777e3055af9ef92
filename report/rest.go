package report

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
)

// AfterRest is what the first firing after the rest that was told did against the
// later ones at its speed. It is counted like any other.
type AfterRest struct {
	Firing *int     `json:"firing"` // index into Document.Firings; nil where none can be told to be the first
	Later  []int    `json:"later"`  // indices into Document.Firings
	Slower *float64 `json:"slower_stops"`
	Spread *float64 `json:"later_spread_stops"`
}

func newRest(c shutter.Check, l Lens) *AfterRest {
	if l.Rested == "" {
		return nil
	}
	w, ok := c.Waking()
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

// rest is how long the lens had rested, in words: "90 d", "2 years".
func (l Lens) rest() string {
	if CheckRested(l.Rested) != nil {
		return l.Rested
	}
	number, unit := l.Rested[:len(l.Rested)-1], l.Rested[len(l.Rested)-1:]
	word := map[string]string{"h": "h", "d": "d", "w": "weeks", "y": "years"}[unit]
	if number == "1" {
		word = strings.TrimSuffix(word, "s")
	}
	return number + " " + word
}

// theRest names the rest: "90 d rest", "2 years' rest".
func (l Lens) theRest() string {
	long := l.rest()
	if strings.HasSuffix(long, "s") {
		long += "'"
	}
	return long + " rest"
}

// FirstAfterRest names the first firing after the rest that was told, and gives its
// index in Document.Firings; false where there is none.
func (d Document) FirstAfterRest() (firing int, name string, ok bool) {
	if d.Rest == nil || d.Rest.Firing == nil {
		return 0, "", false
	}
	return *d.Rest.Firing, "first after " + d.Lens.theRest(), true
}

// writeRest says what the first firing after the rest did, and what that means;
// nothing where no rest was told or nothing was heard.
func (d Document) writeRest(b *bytes.Buffer) {
	n, name, ok := d.FirstAfterRest()
	switch {
	case d.Rest == nil || len(d.Firings) == 0:
		return
	case !ok:
		writeList(b, "Which firing was the first after "+words.Printable(d.Lens.theRest()), []string{"several clips don't tell: record all speeds in one"})
		return
	}
	f := d.Firings[n]
	heading := fmt.Sprintf("F%s: firing %d%s", name[1:], n+1, f.at())
	fmt.Fprintf(b, "%s%s.\n", words.Printable(heading), words.Printable(d.againstLater(f)))
	if d.Rest.Slower != nil {
		fmt.Fprintf(b, "  %s.\n", d.restTells())
	}
}

// againstLater says what the first firing did against the later ones at its speed.
func (d Document) againstLater(f Firing) string {
	switch {
	case !f.Judged:
		return ", not counted: " + f.Excuse()
	case d.Rest.Slower == nil:
		return "; no later one at its speed to hold it against"
	case len(d.Rest.Later) == 1 || d.Rest.Spread == nil:
		return ", " + longer(*d.Rest.Slower) + "the later one there"
	}
	return fmt.Sprintf(", %sthe median of the %d later ones there, which differ by %s",
		longer(*d.Rest.Slower), len(d.Rest.Later), words.PlainStops(*d.Rest.Spread))
}

// longer says how much longer a time is than another, in stops.
func longer(stops float64) string {
	switch {
	case words.PlainStops(math.Abs(stops)) == words.PlainStops(0):
		return "as long as "
	case stops < 0:
		return words.PlainStops(-stops) + " shorter than "
	}
	return words.PlainStops(stops) + " longer than "
}

// restTells says what that means: the rest tells where the first firing is slower by
// more than firings at one speed may differ, and by more than these do.
func (d Document) restTells() string {
	slower, spread := *d.Rest.Slower, d.Rest.Spread
	if slower > d.Policy.SpreadGood && (spread == nil || slower > *spread) {
		return "slow to wake, and counted all the same: a shutter once exercised behaves for an afternoon"
	}
	return "the rest does not show in it"
}
