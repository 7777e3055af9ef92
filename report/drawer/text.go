package drawer

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"earshot/report/words"
	"earshot/report/write"
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
	_, err := fmt.Fprintf(w, "Drawer %s: %s. %s\n\n%s\n\n%s.\n", words.Printable(s.Name), words.Plural(len(s.Entries), "lens"), words.Date(s.Made),
		write.Columns(rows), s.Counts())
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
		found[i] = text.WrapSoft(words.Printable(line), foundWidth)
	}
	title := strings.Replace(e.Lens.Title(), ", no. ", "\nno. ", 1)
	lines := strings.Split(title, "\n")
	for i := range lines {
		lines[i] = words.Printable(lines[i])
	}
	judged := strings.ReplaceAll(e.Judged(), ", partly", "\npartly")
	return table.Row{e.Verdict(), strings.Join(lines, "\n"), words.Printable(judged), strings.Join(found, "\n")}
}
