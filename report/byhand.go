package report

import (
	"fmt"
	"strings"

	"earshot/report/words"
	"earshot/shutter"
)

// ByHand is what became of the firings heard in a clip once a person had set their
// times in a file of labels.
type ByHand struct {
	File    string    `json:"file"` // name without its folder
	SHA256  string    `json:"sha256"`
	AsHeard int       `json:"as_heard"` // times left as they were
	Moved   int       `json:"moved"`
	Added   int       `json:"added"`
	LeftOut []float64 `json:"left_out_s"` // openings of the firings taken out
}

// NewByHand sums up a correction with the labels of a file.
func NewByHand(file, sha256 string, c shutter.Corrected) *ByHand {
	return &ByHand{File: file, SHA256: sha256, AsHeard: c.AsHeard, Moved: c.Moved, Added: c.Added,
		LeftOut: each(c.LeftOut, func(f shutter.Firing) float64 { return f.Open })}
}

func (h *ByHand) rounded() *ByHand {
	if h == nil {
		return nil
	}
	r := *h
	r.LeftOut = each(h.LeftOut, seconds)
	return &r
}

// any tells whether anything is other than it was heard.
func (h *ByHand) any() bool { return h.Moved+h.Added+len(h.LeftOut) > 0 }

// words says how many firings were heard and what was done to them: "2 moved, 1
// added, 1 left out, the other 17 as heard".
func (h *ByHand) words() string {
	var parts []string
	for _, p := range []struct {
		n    int
		what string
	}{{h.Moved, "moved"}, {h.Added, "added"}, {len(h.LeftOut), "left out"}} {
		if p.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.what))
		}
	}
	if !h.any() {
		return "all as heard"
	}
	return strings.Join(parts, ", ") + fmt.Sprintf(", %d as heard", h.AsHeard)
}

// ByHandWords says that times were set by hand, and of how many firings; empty where
// none were.
func (d Document) ByHandWords() string {
	for _, c := range d.Clips { // only one clip at a time has labels
		if h := c.ByHand; h != nil && h.any() {
			return "Times set by hand: " + h.words()
		}
	}
	return ""
}

// ByHandLines says which file times were set in or read from, which firings those are,
// and which were taken out; nil where every time is as heard.
func (d Document) ByHandLines() []string {
	var lines []string
	for _, c := range d.Clips {
		if c.ByHand == nil {
			continue
		}
		done := "set by hand in"
		if !c.ByHand.any() {
			done = "read from"
		}
		line := fmt.Sprintf("Times %s %s, sha256 %s: %s", done, c.ByHand.File, words.Short(c.ByHand.SHA256), c.ByHand.words())
		lines = append(lines, line+d.setByHand())
		if len(c.ByHand.LeftOut) > 0 {
			lines = append(lines, "Heard and left out by hand: "+words.AtSeconds(c.ByHand.LeftOut))
		}
	}
	return lines
}

// setByHand names the firings whose times were set by hand.
func (d Document) setByHand() string {
	var set []int
	for i, f := range d.Firings {
		if f.Edge == string(shutter.EdgeHand) {
			set = append(set, i)
		}
	}
	if len(set) == 0 {
		return ""
	}
	return " (set: " + words.Firings(set) + ")"
}
