package drawer

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"earshot/report"
)

// foundWidth is how many columns of the terminal what was found may take.
const foundWidth = 56

// WriteText writes the drawer for a person: a table of its lenses, what needs
// attention first. Text from outside is made safe for a terminal.
func (s Summary) WriteText(w io.Writer) error {
	rows := []table.Row{{"verdict", "lens", "judged", "what was found"}}
	for _, e := range s.Entries {
		rows = append(rows, e.row())
	}
	_, err := fmt.Fprintf(w, "Drawer %s: %s. %s\n\n%s\n\n%s.\n", report.Printable(s.Name), count(len(s.Entries), "lens"), report.Date(s.Made),
		report.Columns(rows), s.Counts())
	return err
}

// Counts says how many lenses have each verdict: "3 service advised, 5 good".
func (s Summary) Counts() string {
	var parts []string
	for _, v := range verdicts() {
		if n := s.Count(v); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, v))
		}
	}
	return strings.Join(parts, ", ")
}

func (e Entry) row() table.Row {
	found := e.Found()
	for i, line := range found {
		found[i] = text.WrapSoft(report.Printable(line), foundWidth)
	}
	title := strings.Replace(e.Lens.Title(), ", no. ", "\nno. ", 1)
	lines := strings.Split(title, "\n")
	for i := range lines {
		lines[i] = report.Printable(lines[i])
	}
	judged := strings.ReplaceAll(e.Judged(), ", partly", "\npartly")
	return table.Row{e.Verdict(), strings.Join(lines, "\n"), report.Printable(judged), strings.Join(found, "\n")}
}

func count(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case strings.HasSuffix(noun, "s"):
		return fmt.Sprintf("%d %ses", n, noun)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
