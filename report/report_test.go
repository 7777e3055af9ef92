package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"earshot/report"
	"earshot/report/internal/golden"
	"earshot/report/words"
	"earshot/shutter"
)

func TestWritersKeepTheirFormat(t *testing.T) {
	d := document()
	writers := []struct {
		file  string
		write func(*bytes.Buffer) error
	}{
		{"sitting.json", func(b *bytes.Buffer) error { return report.WriteJSON(b, d) }},
		{"sitting.csv", func(b *bytes.Buffer) error { return report.WriteCSV(b, d) }},
		{"sitting.txt", func(b *bytes.Buffer) error { return report.WriteText(b, d) }},
	}
	for _, w := range writers {
		var b bytes.Buffer
		if err := w.write(&b); err != nil {
			t.Errorf("%s: %v", w.file, err)
		}
		golden.Check(t, w.file, b.Bytes())
	}
}

func TestWhatIsWrittenReadsBackTheSame(t *testing.T) {
	var b bytes.Buffer
	want := document()
	if err := report.WriteJSON(&b, want); err != nil {
		t.Fatal(err)
	}
	got, err := report.Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("read back (-written +read):\n%s", d)
	}
}

func TestRecordsThatCannotBeUsedSayWhy(t *testing.T) {
	cases := []struct {
		name, record string
		want         error
		says         string
	}{
		{"an empty file", "", report.ErrNotRecord, "not JSON"},
		{"text", "hello", report.ErrNotRecord, "not JSON"},
		{"another program's JSON", `{"a": 1}`, report.ErrNotRecord, "earshot/1"},
		{"a list", `[1, 2]`, report.ErrNotRecord, "earshot/1"},
		{"a newer record", `{"schema": "earshot/2"}`, report.ErrOtherSchema, `"earshot/2"`},
		{"a failed check", `{"schema": "earshot/1", "error": {"code": "x", "message": "no such file"}}`, report.ErrFailed, "no such file"},
		{"a record without a date", `{"schema": "earshot/1"}`, report.ErrDamaged, "made"},
		{"a record whose list is a number", `{"schema": "earshot/1", "firings": 3}`, report.ErrDamaged, "firings"},
		{"a firing of no clip", edited(t, `"clip": 0`, `"clip": 7`), report.ErrDamaged, "clip 7"},
		{"a speed that speaks of a firing that is not there", edited(t, "\"firings\": [\n        6\n", "\"firings\": [\n        60\n"), report.ErrDamaged, "firing 60"},
		{"an unknown verdict", edited(t, `"verdict": "good"`, `"verdict": "fine"`), report.ErrDamaged, "fine"},
		{"a speed that takes no time", edited(t, `"nominal_s": 0.5,`, `"nominal_s": 0,`), report.ErrDamaged, "nominal"},
		{"limits the wrong way round", edited(t, `"service_stops": 0.5`, `"service_stops": 0.1`), report.ErrDamaged, "policy"},
	}
	for _, c := range cases {
		_, err := report.Read(strings.NewReader(c.record))
		if !errors.Is(err, c.want) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: Read = %v, want %v that says %q", c.name, err, c.want, c.says)
		}
	}
}

// edited is the fixture's record with one place changed.
func edited(t *testing.T, old, new string) string {
	t.Helper()
	var b bytes.Buffer
	if err := report.WriteJSON(&b, document()); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), old) {
		t.Fatalf("the record has no %q", old)
	}
	return strings.ReplaceAll(b.String(), old, new)
}

func TestDocumentsHoldToTheSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("../docs/earshot-1.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	holds := func(record string) error {
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(record))
		if err != nil {
			t.Fatal(err)
		}
		return schema.Validate(v)
	}
	var empty, failure bytes.Buffer
	report.WriteJSON(&empty, report.New(shutter.Check{Policy: shutter.Standard}, report.Facts{Lens: report.Lens{Shutter: "leaf"}}))
	report.WriteFailure(&failure, report.Failure{Code: "not-wav", File: "a.txt", Message: "not a sound file"})
	for name, record := range map[string]string{"everything": edited(t, "x", "x"), "nothing": empty.String(), "a failure": failure.String()} {
		if err := holds(record); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, record := range map[string]string{
		"a null list":            edited(t, `"warnings": []`, `"warnings": null`),
		"a firing neither/nor":   edited(t, `"reason": "it never closed"`, `"reason": ""`),
		"a foreign verdict":      edited(t, `"verdict": "good"`, `"verdict": "fine"`),
		"a missing field":        edited(t, `"u95_stops"`, `"u96_stops"`),
		"a failure and a record": edited(t, `"schema"`, `"error": {"code": "x", "file": "", "message": "m", "hint": ""}, "schema"`),
	} {
		if holds(record) == nil {
			t.Errorf("%s: the schema lets it pass", name)
		}
	}
}

func TestListsAreNeverNull(t *testing.T) {
	var b bytes.Buffer
	c := shutter.Check{Firings: []shutter.JudgedFiring{{}}, Speeds: []shutter.Speed{{Symptoms: []shutter.Symptom{{}}}}}
	if err := report.WriteJSON(&b, report.New(c, report.Facts{Clips: []report.Clip{{}}})); err != nil {
		t.Fatal(err)
	}
	var v map[string]any
	if err := json.Unmarshal(b.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	lists := []any{v["clips"], v["firings"], v["speeds"], v["symptoms"], v["why"], v["warnings"]}
	first := func(list any) map[string]any { return list.([]any)[0].(map[string]any) }
	speed := first(v["speeds"])
	lists = append(lists, first(v["clips"])["warnings"], first(v["firings"])["symptoms"], speed["firings"], first(speed["symptoms"])["firings"])
	for i, l := range lists {
		if _, ok := l.([]any); !ok {
			t.Errorf("list %d is %v, want a list", i, l)
		}
	}
}

func TestFiguresThatAreNotNumbersBecomeNull(t *testing.T) {
	c := fixture()
	c.Speeds[0].Summary.U95, c.Firings[0].U, c.Speeds[0].Summary.Budget.Onset = math.NaN(), math.Inf(1), math.Inf(-1)
	d := report.New(c, report.Facts{})
	if d.Speeds[0].U95 != nil || d.Firings[0].U != nil || d.Speeds[0].Budget.Onset != 0 {
		t.Errorf("U95 %v, U %v, onset %v", d.Speeds[0].U95, d.Firings[0].U, d.Speeds[0].Budget.Onset)
	}
}

func TestCSVIsSafeInASpreadsheet(t *testing.T) {
	d := document()
	d.Lens.Name, d.Lens.Serial = "=HYPERLINK(\"x\")", "-1+2"
	d.Firings[7].Reason = "@SUM(A1), then \"x\""
	var b bytes.Buffer
	if err := report.WriteCSV(&b, d); err != nil {
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
	d := document()
	d.Lens.Name = "Cor\x1b]0;x\avane\u202e\n\xff"
	var b bytes.Buffer
	if err := report.WriteText(&b, d); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); strings.ContainsAny(got, "\x1b\a\u202e") || !utf8.ValidString(got) || !strings.Contains(got, `Cor\x1b]0;x\avane\u202e\n\xff`) {
		t.Errorf("text holds what moves a terminal: %q", got[:80])
	}
}

func TestAssumedIsSaidOnEveryLineOfTheTable(t *testing.T) {
	d := document()
	for i := range d.Speeds {
		d.Speeds[i].Assumed = true
	}
	var b bytes.Buffer
	if err := report.WriteText(&b, d); err != nil {
		t.Fatal(err)
	}
	for _, s := range d.Speeds {
		if !strings.Contains(b.String(), words.Mark(s.Marked)+" assumed") {
			t.Errorf("%s is not marked as assumed in\n%s", s.Marked, b.String())
		}
	}
}
