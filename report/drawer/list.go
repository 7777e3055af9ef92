package drawer

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"earshot/report/settings"
)

// List is a drawer.csv as it was read.
type List struct {
	Rows  []Row
	Extra []string // the names of further columns, as written
}

// The columns that are understood. All but lens and clip may be left out. Lines of
// one lens that differ in sitting, "before service" and "after" say, are checked as
// two. The last ones hold what a person saw of the lens, and who it was.
var (
	basic   = []string{"lens", "serial", "clip", "speeds", "shutter", "rested", "temperature_c", "note"}
	columns = slices.Concat(basic, []string{"sitting", observer}, settings.Seen)
)

const observer = "observed_by"

// Problem is one thing to be put right in a list.
type Problem struct {
	Line    int    // of the file, from 1; 0 where it is no one line's
	Column  string // empty where it is no one column's
	Message string // what is wrong and what to write instead
}

// Error says where and what: "line 4, column speeds (D): ...".
func (p Problem) Error() string {
	where := ""
	if p.Line > 0 {
		where = fmt.Sprintf("line %d", p.Line)
	}
	if p.Column != "" {
		where = strings.TrimPrefix(where+", column "+p.Column, ", ")
	}
	return strings.TrimPrefix(where+": "+p.Message, ": ")
}

// Read reads a list: comma, semicolon or tab between the fields, UTF-8 or UTF-16 with
// a byte order mark, else UTF-8 or, where it is none, Windows-1252, which holds
// Latin-1; lines ending in any way. The first line names the columns in any order;
// those not known here are kept as they are. Lines without any field filled in are
// passed over. Every problem is told, in the order of lines; a row that has one is among
// the list's all the same if it names a lens and a clip, so that more can be told.
func Read(file []byte) (List, []Problem) {
	text, problem := decode(file)
	if problem != "" {
		return List{}, []Problem{{Message: problem}}
	}
	records, problems := split(text)
	if len(records) == 0 {
		return List{}, append(problems, Problem{Message: "the list is empty: its first line names the columns, " + strings.Join(basic, ",") + ", and each further line a clip"})
	}
	head, wrong := newHead(records[0])
	if len(wrong) > 0 {
		return List{}, append(wrong, problems...)
	}
	l := List{Extra: head.extra()}
	for _, r := range records[1:] {
		row, wrong := head.row(r)
		problems = append(problems, wrong...)
		if row.Lens.Name != "" && row.Clip != "" {
			l.Rows = append(l.Rows, row)
		}
	}
	return l, InOrder(problems)
}

// InOrder sorts problems by their line.
func InOrder(problems []Problem) []Problem {
	slices.SortStableFunc(problems, func(a, b Problem) int { return a.Line - b.Line })
	return problems
}

// record is one line of fields, trimmed.
type record struct {
	line   int
	fields []string
}

func (r record) blank() bool {
	return !slices.ContainsFunc(r.fields, func(f string) bool { return f != "" })
}

// split takes the text apart at its separator. It stops at a line it can't take apart.
func split(text string) (records []record, problems []Problem) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma = separator(text)
	reader.FieldsPerRecord = -1
	for {
		fields, err := reader.Read()
		var wrong *csv.ParseError
		switch {
		case errors.Is(err, io.EOF):
			return records, problems
		case errors.As(err, &wrong):
			return records, append(problems, Problem{Line: wrong.Line, Message: "a double quote stands alone: a field that holds one begins and ends with a double quote, and each inside it is doubled"})
		case err != nil:
			return records, append(problems, Problem{Message: err.Error()})
		}
		line, _ := reader.FieldPos(0)
		for i, f := range fields {
			fields[i] = strings.TrimSpace(f)
		}
		records = append(records, record{line, fields})
	}
}

// separator is the one of comma, semicolon and tab that the first line holds most of,
// outside double quotes.
func separator(text string) rune {
	count := map[rune]int{}
	quoted := false
	for _, r := range strings.TrimLeft(text, "\n") {
		switch {
		case r == '"':
			quoted = !quoted
		case !quoted && r == '\n':
			return most(count)
		case !quoted:
			count[r]++
		}
	}
	return most(count)
}

func most(count map[rune]int) rune {
	best := ','
	for _, r := range []rune{';', '\t'} {
		if count[r] > count[best] {
			best = r
		}
	}
	return best
}
