package write_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/words"
	"earshot/report/write"
)

// A program reads the same text from JSON as before; who prints the file on a terminal
// is safe from it.
func TestJSONIsSafeOnATerminal(t *testing.T) {
	d := sample.Document()
	d.Lens.Name = strings.ToValidUTF8(sample.Hostile, "\ufffd") + "\U000E0041ü"
	var b bytes.Buffer
	if err := write.JSON(&b, d); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if shown := words.Printable(strings.ReplaceAll(text, "\n", "")); shown != strings.ReplaceAll(text, "\n", "") {
		t.Error("what is not printable stands in the JSON")
	}
	var back report.Document
	if err := json.Unmarshal(b.Bytes(), &back); err != nil || back.Lens.Name != d.Lens.Name {
		t.Errorf("%q reads back as %q, %v", d.Lens.Name, back.Lens.Name, err)
	}
	if !strings.Contains(text, "ü") {
		t.Error("a letter that is printable was escaped")
	}
}

// Spreadsheets of some languages take the wide forms of = + − and @ for a formula's
// start too, and some pass over space before it.
func TestCSVIsSafeWhereverAFormulaBegins(t *testing.T) {
	for _, name := range []string{"=1+1", "+1", "-1", "@SUM(1)", "＝1+1", "＋1", "－1", "＠SUM(1)", " =1+1", "\t=1+1", "\r=1+1", "\u00a0=1+1"} {
		d := sample.Document()
		d.Lens.Name = name
		var b bytes.Buffer
		if err := write.CSV(&b, d); err != nil {
			t.Fatal(err)
		}
		row := strings.Split(b.String(), "\n")[1]
		if first := strings.TrimPrefix(row, `"`); !strings.HasPrefix(first, "'") && !strings.HasPrefix(first, `\`) {
			t.Errorf("%q is written as %s", name, row[:20])
		}
	}
}

func TestCSVIsSafeInASpreadsheet(t *testing.T) {
	d := sample.Document()
	d.Lens.Name, d.Lens.Serial = "=HYPERLINK(\"x\")", "-1+2"
	d.Firings[7].Reason = "@SUM(A1), then \"x\""
	var b bytes.Buffer
	if err := write.CSV(&b, d); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+len(d.Firings) {
		t.Errorf("%d rows, want a heading and %d firings", len(rows), len(d.Firings))
	}
	for i, row := range rows {
		for j, c := range row {
			number := json.Valid([]byte(c))
			if c != "" && strings.ContainsRune("=+-@\t\r\x1b", rune(c[0])) && !number {
				t.Errorf("row %d, column %s: %q is taken for a formula", i, rows[0][j], c)
			}
			if strings.HasPrefix(c, "1/") && !strings.HasSuffix(c, " s") {
				t.Errorf("row %d, column %s: %q is taken for a date", i, rows[0][j], c)
			}
		}
	}
}

func TestTextIsSafeOnATerminal(t *testing.T) {
	d := sample.Document()
	d.Lens.Name = "Cor\x1b]0;x\avane\u202e\n\xff"
	var b bytes.Buffer
	if err := write.Text(&b, d); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); strings.ContainsAny(got, "\x1b\a\u202e") || !utf8.ValidString(got) || !strings.Contains(got, `Cor\x1b]0;x\avane\u202e\n\xff`) {
		t.Errorf("text holds what moves a terminal: %q", got[:80])
	}
}
