package report_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter/judge"
)

func TestWhatIsWrittenReadsBackTheSame(t *testing.T) {
	var b bytes.Buffer
	want := sample.Document()
	if err := write.JSON(&b, want); err != nil {
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
	if err := write.JSON(&b, sample.Document()); err != nil {
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
	write.JSON(&empty, report.New(judge.Check{Policy: judge.Standard()}, report.Facts{Lens: report.Lens{Shutter: "leaf"}}))
	write.Failure(&failure, report.Failure{Code: "not-wav", File: "a.txt", Message: "not a sound file"})
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
	c := judge.Check{Firings: []judge.JudgedFiring{{}}, Speeds: []judge.Speed{{Symptoms: []judge.Symptom{{}}}}}
	if err := write.JSON(&b, report.New(c, report.Facts{Clips: []report.Clip{{}}})); err != nil {
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
	c := sample.Check()
	c.Speeds[0].Summary.U95, c.Firings[0].U, c.Speeds[0].Summary.Budget.Onset = math.NaN(), math.Inf(1), math.Inf(-1)
	d := report.New(c, report.Facts{})
	if d.Speeds[0].U95 != nil || d.Firings[0].U != nil || d.Speeds[0].Budget.Onset != 0 {
		t.Errorf("U95 %v, U %v, onset %v", d.Speeds[0].U95, d.Firings[0].U, d.Speeds[0].Budget.Onset)
	}
}
