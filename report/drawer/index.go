package drawer

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"

	"earshot/report/words"
)

//go:embed index.html.tmpl
var page string

//go:embed index.css
var style string

//go:embed index.js
var script string

var index = template.Must(template.New("index").Parse(page))

// indexPage is what the page shows.
type indexPage struct {
	Summary
	Style     template.CSS
	Script    template.JS
	Policy    string
	Legend    string
	NotTested string
	Rows      []indexRow
}

// indexRow is one lens on the page.
type indexRow struct {
	Entry
	Rank  int // in the order to be looked at
	ID    string
	Chart *miniature
}

// WriteHTML writes the index: one page that asks for nothing else, in a browser that
// holds to its policy, and can be sorted where scripts run. Files of the lenses are
// linked as lying beside it.
func (s Summary) WriteHTML(w io.Writer) error {
	p := indexPage{
		Summary: s, Style: template.CSS(style), Script: template.JS(script), Policy: contentPolicy(),
		Legend: s.legend(), NotTested: words.NotTested,
	}
	for i, e := range s.Entries {
		p.Rows = append(p.Rows, indexRow{e, i, fmt.Sprintf("lens-%d", i+1), newMiniature(e.Record)})
	}
	var b strings.Builder
	if err := index.Execute(&b, p); err != nil {
		return fmt.Errorf("writing the index: %w", err)
	}
	_, err := io.WriteString(w, words.Visible(b.String()))
	return err
}

// contentPolicy lets the page's own style and script run and nothing be loaded.
func contentPolicy() string {
	digest := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return "default-src 'none'; style-src " + digest(style) + "; script-src " + digest(script) + "; base-uri 'none'; form-action 'none'"
}

// Date is the day of the latest record.
func (s Summary) Date() string { return words.Date(s.Made) }

// Lenses counts the lenses: "8 lenses".
func (s Summary) Lenses() string { return words.Plural(len(s.Entries), "lens") }

// legend says what band and lines mean, where all records agree on it.
func (s Summary) legend() string {
	var said string
	for _, e := range s.Entries {
		if e.Record == nil {
			continue
		}
		p := e.Record.Policy
		here := fmt.Sprintf("The band is good, within %s; beyond the dashed lines, %s, service is advised.", words.Stops(p.Good), words.Stops(p.Service))
		if said != "" && said != here {
			return "The band is good; beyond the dashed lines service is advised."
		}
		said = here
	}
	return said
}

// Title is the lens on one line.
func (r indexRow) Title() string { return r.Lens.Title() }

// Off is how far the lens is off at most, in stops, for sorting; −1 where unknown.
func (r indexRow) Off() string {
	_, stops, ok := r.Furthest()
	if !ok {
		return "-1"
	}
	return strconv.FormatFloat(max(stops, -stops), 'f', 3, 64)
}

// Counted accounts for the firings of the lens.
func (r indexRow) Counted() string {
	if r.Record == nil {
		return ""
	}
	return r.Record.CountWords()
}

// Date is the day of the record.
func (e Entry) Date() string { return words.Date(e.Record.Made) }
