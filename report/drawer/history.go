package drawer

import (
	"fmt"
	"slices"
)

// Twins says which clips of different lenses hold the same bytes: one of them has the wrong
// name.
func (s Summary) Twins() (notes []string) {
	type place struct {
		entry int
		clip  string
	}
	first := map[string]place{}
	for i, e := range s.Entries {
		if e.Record == nil {
			continue
		}
		for _, c := range e.Record.Clips {
			was, known := first[c.SHA256]
			switch {
			case !known:
				first[c.SHA256] = place{i, c.File}
			case was.entry != i:
				notes = append(notes, fmt.Sprintf("%s of %s holds the same bytes as %s of %s: one of them is another lens's", c.File, e.Lens.Title(), was.clip, s.Entries[was.entry].Lens.Title()))
			}
		}
	}
	return notes
}

// History is the records of one serial number.
type History struct {
	Serial  string
	Entries []Entry // in the order they were made, then of the summary's
}

// Histories gathers lenses that are on record more than once.
func (s Summary) Histories() (all []History) {
	for _, e := range s.Entries {
		i := slices.IndexFunc(all, func(h History) bool { return h.Serial == e.Lens.Serial })
		switch {
		case e.Record == nil || e.Lens.Serial == "":
		case i < 0:
			all = append(all, History{e.Lens.Serial, []Entry{e}})
		default:
			all[i].Entries = append(all[i].Entries, e)
		}
	}
	all = slices.DeleteFunc(all, func(h History) bool { return len(h.Entries) < 2 })
	for _, h := range all {
		slices.SortStableFunc(h.Entries, func(a, b Entry) int { return a.Record.Made.Compare(b.Record.Made) })
	}
	return all
}
