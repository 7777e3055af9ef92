package drawer_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/csv"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"earshot/report"
	"earshot/report/drawer"
	"earshot/report/internal/golden"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// made is when the drawer of these tests was checked.
var made = time.Date(2026, 11, 25, 14, 30, 0, 0, time.UTC)

// judged is a record of one lens with three firings, that many stops off, at each mark.
func judged(lens report.Lens, marks string, stops float64, when time.Time) *report.Document {
	var (
		firings []shutter.Firing
		laying  assign.Laying
	)
	steps, err := shutter.ParseSteps(marks)
	if err != nil {
		panic(err)
	}
	for _, s := range steps {
		run := assign.Run{Mark: s.Mark}
		for range 3 {
			open := float64(3 * len(firings))
			run.Firings = append(run.Firings, len(firings))
			firings = append(firings, shutter.Firing{Open: open, Close: open + s.Mark.Nominal*(1+stops), Closed: true, Edge: shutter.EdgeStart})
		}
		laying.Runs = append(laying.Runs, run)
	}
	d := report.New(judge.Judge(firings, laying, judge.Standard()), report.Facts{
		Version: "v1.2.3", Made: when, Lens: lens, Told: steps,
		Clips: []report.Clip{{File: lens.Name + ".wav", SHA256: lens.Name + lens.Serial + when.String(), Rate: 48000, Channels: 1}},
	})
	return &d
}

func entry(name, serial string, d *report.Document) drawer.Entry {
	e := drawer.Entry{Lens: drawer.Lens{Lens: report.Lens{Name: name, Serial: serial, Shutter: "leaf"}, Clips: []drawer.Clip{{Name: name + ".wav"}}}, Record: d}
	if d != nil {
		e.Files = []drawer.File{{Kind: "chart", Name: name + ".png"}, {Kind: "record", Name: name + ".json"}}
	}
	return e
}

// small is a drawer of an invented shop with one lens of each verdict, and one that was
// there before.
func small() drawer.Summary {
	good := entry("Corvane 105", "1042", judged(report.Lens{Name: "Corvane 105", Serial: "1042"}, "1 1/2 1/4 1/8", 0, made))
	before := entry("Ostrivel 150", "77", judged(report.Lens{Name: "Ostrivel 150", Serial: "77"}, "1 1/2 1/4 1/8", 0.9, made.AddDate(-1, 0, 0)))
	before.Lens.Sitting = "before service"
	after := entry("Ostrivel 150", "77", judged(report.Lens{Name: "Ostrivel 150", Serial: "77"}, "1 1/2 1/4 1/8", 0.3, made))
	after.Lens.Sitting = "after service"
	fast := entry("Quillard 135", "3", judged(report.Lens{Name: "Quillard 135", Serial: "3"}, "1/500", 0, made))
	broken := entry("Vastrel 90", "", nil)
	broken.Failure = &report.Failure{Code: "not-a-recording", File: "vastrel.wav", Message: "this is text, not a recording", Hint: "record again"}
	good.Missed = []report.Failure{{Code: "empty", File: "second.wav", Message: "the file is empty", Hint: "record again"}}
	s := drawer.NewSummary("shop", "v1.2.3", made, []drawer.Entry{good, after, before, fast, broken})
	s.Extra, s.Notes = []string{"shelf"}, []string{"left.wav is not in drawer.csv and was not checked"}
	s.Entries[0].Lens.Extra = []string{"=2+3"}
	return s
}

func TestWhatIsWrittenOfADrawerStaysAsItIs(t *testing.T) {
	s := small()
	for name, write := range map[string]func(*bytes.Buffer) error{
		"shop.html": func(b *bytes.Buffer) error { return s.WriteHTML(b) },
		"shop.csv":  func(b *bytes.Buffer) error { return s.WriteCSV(b) },
		"shop.json": func(b *bytes.Buffer) error { return s.WriteJSON(b) },
		"shop.txt":  func(b *bytes.Buffer) error { return s.WriteText(b) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		golden.Check(t, name, b.Bytes())
	}
}

func TestWhatNeedsAttentionStandsFirst(t *testing.T) {
	var got []string
	for _, e := range small().Entries {
		got = append(got, e.Verdict())
	}
	want := []string{"service advised", "not checked", "not judged", "steady", "good"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	if counts := small().Counts(); counts != "1 service advised, 1 not checked, 1 not judged, 1 steady, 1 good" {
		t.Errorf("counts: %s", counts)
	}
}

func TestALensOnRecordMoreThanOnceHasAHistory(t *testing.T) {
	all := small().Histories()
	if len(all) != 1 || all[0].Serial != "77" || len(all[0].Entries) != 2 || all[0].Entries[0].Lens.Sitting != "before service" {
		t.Errorf("histories: %+v", all)
	}
}

func TestClipsOfTwoLensesThatAreOneAreTold(t *testing.T) {
	s := small()
	copied := *s.Entries[len(s.Entries)-1].Record
	s.Entries = append(s.Entries, entry("Tamberlin", "9", &copied))
	if twins := s.Twins(); len(twins) != 1 || !strings.Contains(twins[0], "of Tamberlin, no. 9 holds the same bytes as Corvane 105.wav of Corvane") {
		t.Errorf("twins: %q", twins)
	}
	if twins := small().Twins(); len(twins) != 0 {
		t.Errorf("twins where there are none: %q", twins)
	}
}

// The digests a policy names are those of the text between the tags, exactly (Content
// Security Policy Level 3, section 8.4).
func TestTheIndexsPolicyLetsItsOwnStyleAndScriptRunAndNothingElse(t *testing.T) {
	html := write(t, small())
	policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(html)
	if policy == nil {
		t.Fatal("the page has no policy")
	}
	told := strings.NewReplacer("&#39;", "'", "&#43;", "+").Replace(policy[1])
	if !strings.HasPrefix(told, "default-src 'none'; ") || strings.Contains(told, "unsafe") {
		t.Errorf("policy %s", told)
	}
	for tag, name := range map[string]string{"style": "style-src", "script": "script-src"} {
		text := regexp.MustCompile("(?s)<"+tag+">(.*?)</"+tag+">").FindAllStringSubmatch(html, -1)
		if len(text) != 1 || strings.Contains(html, "<"+tag+" ") {
			t.Fatalf("%d of <%s>", len(text), tag)
		}
		sum := sha256.Sum256([]byte(text[0][1]))
		if want := name + " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(told, want) {
			t.Errorf("policy %s lacks %s", told, want)
		}
	}
	if found := regexp.MustCompile(`(?i)\s(style|on[a-z]+)=|https?:|\ssrc=|url\(|@import`).FindString(html); found != "" {
		t.Errorf("the page holds %q, which its policy forbids or which leaves it", found)
	}
}

func TestTextFromOutsideIsOnlyTextOnTheIndex(t *testing.T) {
	const evil = `"><script>alert(1)</script><img src=x onerror=alert(1)>` + "\u202e\u2066\u009b31m\x1b[2J"
	s := small()
	s.Name, s.Notes, s.Version = evil, []string{evil}, evil
	for i := range s.Entries {
		e := &s.Entries[i]
		e.Lens.Name, e.Lens.Serial, e.Lens.Note, e.Lens.Sitting = evil, evil, evil, evil
		e.Missed = []report.Failure{{File: evil, Message: evil, Hint: evil}}
		if e.Failure != nil {
			e.Failure = &report.Failure{File: evil, Message: evil, Hint: evil}
			continue
		}
		e.Record.Why, e.Record.Next = []string{evil}, evil
		e.Files = []drawer.File{{Kind: evil, Name: "javascript:alert(1)"}}
		for j := range e.Record.Speeds {
			e.Record.Speeds[j].Marked, e.Record.Speeds[j].Why = evil, evil
			e.Record.Speeds[j].Symptoms = append(e.Record.Speeds[j].Symptoms, report.Symptom{Name: evil, Why: evil, Cause: evil})
		}
	}
	html := write(t, s)
	if strings.Count(html, "<script") != 1 || strings.Contains(html, "<img") || strings.Contains(html, `href="javascript:`) {
		t.Errorf("text from outside runs on the page:\n%s", html)
	}
	if strings.ContainsAny(html, "\u202e\u2066\u009b\x1b") {
		t.Error("text from outside turns the page's words around")
	}
}

func TestTheSummaryIsSafeInASpreadsheet(t *testing.T) {
	s := small()
	s.Extra = []string{"@shelf"}
	for i := range s.Entries {
		e := &s.Entries[i]
		e.Lens.Name, e.Lens.Serial, e.Lens.Note, e.Lens.Sitting, e.Lens.Extra = "=1+1", "@x", "-2+3", "+1-1", []string{"-1+1"}
	}
	var b bytes.Buffer
	if err := s.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := regexp.MustCompile(`^-?[0-9.]+$`)
	for i, row := range rows {
		for j, c := range row {
			if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) && !number.MatchString(c) {
				t.Errorf("row %d, column %s: %q is taken for a formula", i, rows[0][j], c)
			}
		}
	}
}

func write(t *testing.T, s drawer.Summary) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteHTML(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
