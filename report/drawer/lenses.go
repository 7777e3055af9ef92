package drawer

import (
	"fmt"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/settings"
	"earshot/shutter"
)

// Lens is one lens in one sitting, with all of its clips.
type Lens struct {
	report.Lens
	Sitting string
	Clips   []Clip
	Steps   []shutter.Step    // the settings told of all clips, in order; nil where none were
	Seen    map[string]string // what a person saw, by column
	Extra   []string          // beside List.Extra
}

// Observed is what a person saw of the lens, in the order in which sheets print it,
// and who it was.
func (l Lens) Observed() (seen []report.Observation, by string) {
	return settings.Observations(func(what string) string { return l.Seen[what] }), l.Seen[observer]
}

// Clip is a recording as the list names it.
type Clip struct {
	Name string // below the drawer, with / between folders
	Line int    // of the list; 0 without one
}

// Title names the lens, its number and its sitting on one line.
func (l Lens) Title() string {
	name, number := report.Document{Lens: l.Lens}.Title()
	if l.Sitting != "" {
		number += ", " + l.Sitting
	}
	return name + number
}

// Lenses gathers the rows by lens, in the order of their first rows. Rows are of one lens if
// name, serial number and sitting are the same but for capitals. A cell that is filled in some
// of its rows holds for all. It is a problem if two rows disagree, or if some have speeds and
// others not.
func (l List) Lenses() (lenses []Lens, problems []Problem) {
	place := map[string]int{}
	rows := map[int][]Row{} // of each lens
	for _, r := range l.Rows {
		key := strings.ToLower(strings.Join([]string{r.Lens.Name, r.Lens.Serial, r.Sitting}, "\x00"))
		i, known := place[key]
		if !known {
			i, place[key] = len(lenses), len(lenses)
			lenses = append(lenses, Lens{Lens: r.Lens, Sitting: r.Sitting, Seen: r.Seen, Extra: slices.Clone(r.Extra)})
		} else {
			problems = append(problems, lenses[i].join(r, rows[i][0].Line)...)
		}
		lenses[i].Clips = append(lenses[i].Clips, Clip{r.Clip, r.Line})
		rows[i] = append(rows[i], r)
	}
	for i := range lenses {
		problems = append(problems, lenses[i].tell(rows[i])...)
	}
	return lenses, InOrder(problems)
}

// join takes over what a further row says of the lens, whose first row is at a line.
func (l *Lens) join(r Row, first int) (problems []Problem) {
	differs := func(column, is, was string) {
		problems = append(problems, Problem{r.Line, column, fmt.Sprintf("%q, and line %d says %q of the same lens: write the same in both, or tell two sittings apart in a column sitting", is, first, was)})
	}
	for _, f := range []struct {
		column string
		mine   *string
		his    string
	}{
		{"rested", &l.Rested, r.Lens.Rested}, {"note", &l.Note, r.Lens.Note}, {"shutter", &l.Shutter, r.Lens.Shutter},
	} {
		if *f.mine == "" {
			*f.mine = f.his
		} else if f.his != "" && f.his != *f.mine {
			differs(f.column, f.his, *f.mine)
		}
	}
	switch t := r.Lens.Temperature; {
	case l.Temperature == nil:
		l.Temperature = t
	case t != nil && *t != *l.Temperature:
		differs("temperature_c", fmt.Sprint(*t), fmt.Sprint(*l.Temperature))
	}
	for column, words := range r.Seen {
		switch was := l.Seen[column]; {
		case was == "" && l.Seen == nil:
			l.Seen = map[string]string{column: words}
		case was == "":
			l.Seen[column] = words
		case was != words:
			differs(column, words, was)
		}
	}
	for i, e := range r.Extra {
		if e != "" && e != l.Extra[i] {
			l.Extra[i] = strings.TrimPrefix(l.Extra[i]+"; "+e, "; ")
		}
	}
	return problems
}

// tell joins the settings told in the rows of the lens, which follow one series.
func (l *Lens) tell(rows []Row) (problems []Problem) {
	var all []shutter.Step
	for _, r := range rows {
		if r.misread {
			return nil // and said so
		}
		all = append(all, r.Steps...)
	}
	if len(all) == 0 {
		return nil
	}
	for _, r := range rows {
		if len(r.Steps) == 0 {
			problems = append(problems, Problem{r.Line, "speeds", fmt.Sprintf("empty, and other clips of %s have theirs: tell those of this clip too, or of none", l.Title())})
		}
	}
	var err error
	if l.Steps, err = shutter.ParseSteps(shutter.FormatSteps(all)); err != nil {
		problems = append(problems, Problem{rows[0].Line, "speeds", err.Error()})
	}
	return problems
}
