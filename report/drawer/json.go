package drawer

import (
	"io"
	"time"

	"earshot/report"
	"earshot/report/write"
)

// document is the summary as a program reads it.
type document struct {
	Schema string      `json:"schema"`
	Tool   report.Tool `json:"tool"`
	Made   time.Time   `json:"made"`
	Drawer contents    `json:"drawer"`
}

type contents struct {
	Name   string   `json:"name"`
	Lenses []lens   `json:"lenses"`
	Notes  []string `json:"notes"`
}

type lens struct {
	Lens     report.Lens       `json:"lens"`
	Sitting  string            `json:"sitting"`
	Clips    []string          `json:"clips"`
	Verdict  *string           `json:"verdict"` // null where not checked
	Judged   string            `json:"judged"`
	Partly   bool              `json:"partly_checked"`
	Found    []string          `json:"found"`
	Next     string            `json:"next"`
	Furthest *furthest         `json:"furthest_off"`
	Files    map[string]string `json:"files"`
	Extra    map[string]string `json:"extra"`
	Errors   []report.Failure  `json:"errors"`
}

type furthest struct {
	Marked    string   `json:"marked"`
	Deviation float64  `json:"deviation_stops"`
	U95       *float64 `json:"u95_stops"`
}

// WriteJSON writes the summary, indented, with the fields in their fixed order. Lists
// are never null.
func (s Summary) WriteJSON(w io.Writer) error {
	d := document{report.Schema, report.Tool{Version: s.Version}, s.Made, contents{s.Name, []lens{}, append([]string{}, s.Notes...)}}
	for _, e := range s.Entries {
		d.Drawer.Lenses = append(d.Drawer.Lenses, e.lens(s.Extra))
	}
	return write.Encode(w, d)
}

func (e Entry) lens(extra []string) lens {
	l := lens{
		Lens: e.Lens.Lens, Sitting: e.Lens.Sitting, Clips: append([]string{}, e.Lens.names()...), Judged: e.Judged(),
		Found: append([]string{}, e.Found()...), Next: e.ToDo(), Files: map[string]string{}, Extra: map[string]string{}, Errors: append([]report.Failure{}, e.Failures()...),
	}
	if e.Record != nil {
		verdict := e.Verdict()
		l.Verdict, l.Partly = &verdict, e.Record.Partly
	}
	if s, off, ok := e.Furthest(); ok {
		l.Furthest = &furthest{s.Marked, off, s.U95}
	}
	for _, f := range e.Files {
		l.Files[f.Kind] = f.Name
	}
	for i, name := range extra {
		if i < len(e.Lens.Extra) {
			l.Extra[name] = e.Lens.Extra[i]
		}
	}
	return l
}
