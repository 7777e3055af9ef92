package drawer

import (
	"fmt"
	"slices"
	"strings"
)

// head is the first line: what each field of the others is.
type head struct {
	names []string // as written
	place []int    // in columns, -1 for one not known
}

// newHead reads the first line and says what is wrong with it.
func newHead(r record) (h head, problems []Problem) {
	for i, written := range r.fields {
		place := slices.Index(columns, plainName(written))
		switch {
		case place >= 0 && slices.Contains(h.place, place), place < 0 && written != "" && slices.Contains(h.names, written):
			problems = append(problems, Problem{r.line, named(written, i), "there are two columns of this name: take one out"})
		case place < 0 && written != "" && meant(written, r) != "":
			problems = append(problems, Problem{r.line, named(written, i), fmt.Sprintf("not known, and there is no column %s: is it meant? Then write that", meant(written, r))})
		}
		h.names, h.place = append(h.names, written), append(h.place, place)
	}
	for _, needed := range []string{"lens", "clip"} {
		if len(problems) == 0 && !slices.Contains(h.place, slices.Index(columns, needed)) {
			problems = append(problems, Problem{Line: r.line, Message: fmt.Sprintf("no column %q: the first line names the columns, as in %s", needed, strings.Join(basic, ","))})
		}
	}
	return h, problems
}

func plainName(s string) string {
	return strings.ReplaceAll(strings.ToLower(s), " ", "_")
}

// meant is the known column that an unknown name most likely stands for. It is empty if there
// is none, or if that column is in the line too.
func meant(written string, r record) string {
	name := plainName(written)
	for _, c := range columns {
		akin := len(name) >= 4 && (strings.HasPrefix(name, c) || strings.HasPrefix(c, name))
		if akin && !slices.ContainsFunc(r.fields, func(f string) bool { return plainName(f) == c }) {
			return c
		}
	}
	return ""
}

// named is a column by its name and by its letter in the spreadsheet.
func named(name string, i int) string {
	const letters = 26
	if i >= letters {
		return name
	}
	return strings.TrimSpace(fmt.Sprintf("%s (%c)", name, 'A'+i))
}

func (h head) extra() []string {
	var names []string
	for i, p := range h.place {
		if p < 0 && h.names[i] != "" {
			names = append(names, h.names[i])
		}
	}
	return names
}
