package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// fired is one speed of a sitting: its mark, and the durations of its firings in s.
type fired struct {
	mark      shutter.Mark
	durations []float64
	assumed   bool
}

func mark(label string, nominal float64) shutter.Mark {
	return shutter.Mark{Label: label, Nominal: nominal}
}

// sitting judges firings as the program does, and makes the record.
func sitting(clips int, speeds ...fired) report.Document {
	var (
		firings []shutter.Firing
		laying  assign.Laying
		at      = 2.0
	)
	for _, s := range speeds {
		run := assign.Run{Mark: s.mark, Assumed: s.assumed}
		for _, d := range s.durations {
			run.Firings = append(run.Firings, len(firings))
			firings = append(firings, shutter.Firing{Open: at, Close: at + d, Closed: true, U: 2e-5, Edge: shutter.EdgeStop})
			at += d + 2
		}
		laying.Runs = append(laying.Runs, run)
	}
	facts := report.Facts{Version: "v0.1.0", Made: time.Date(2026, 11, 25, 14, 0, 0, 0, time.UTC), Lens: report.Lens{Name: "Ostrivel 150 mm f/5.6", Serial: "3318186", Shutter: "leaf"}}
	for i := range clips {
		facts.Clips = append(facts.Clips, report.Clip{File: fmt.Sprintf("ostrivel-150_%d.wav", i), SHA256: strings.Repeat("ab", 32), Format: "WAV, 16-bit PCM, 48 kHz, 1 channel", Duration: 46})
	}
	return report.New(judge.Judge(firings, laying, judge.Standard()), facts)
}

func steady() report.Document {
	return sitting(1, fired{mark("1/4", 0.25), []float64{0.33, 0.331, 0.329}, false}, fired{mark("1/8", 0.125), []float64{0.126, 0.125, 0.126}, false})
}

// later is the same half a year on.
func later() report.Document {
	d := steady()
	d.Made = d.Made.AddDate(0, 6, 0)
	return d
}

// many is more than an easy page: nine speeds, each off in a way of its own, from as
// many clips.
func many() report.Document {
	var speeds []fired
	for i, label := range []string{"4s", "2s", "1", "1/2", "1/4", "1/8", "1/15", "1/30", "1/60"} {
		nominal := math.Exp2(2 - float64(i))
		speeds = append(speeds, fired{mark(label, nominal), []float64{nominal * (1 + 0.1*float64(i)), nominal * (1.5 + 0.1*float64(i)), nominal}, false})
	}
	return sitting(9, speeds...)
}

func TestASheetSaysWhatWasJudgedAndHowToRepeatIt(t *testing.T) {
	s, err := New(steady(), []report.Document{later(), steady()})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := WriteHTML(&b, s); err != nil {
		t.Fatal(err)
	}
	page := b.String()
	for _, want := range []string{
		"Ostrivel 150 mm f/5.6, no. 3318186", "Slow speeds 1/4, 1/8 s, measured by sound on 25 November 2026.", "<strong>steady</strong>",
		"1/4 s: true time 330.0 ms; set a meter 1/3 stop slower than the mark", strings.Repeat("ab", 32), "earshot v0.1.0", "policy standard: good within 1/3 stop",
		"6 firings heard, 6 counted", "2 checks of this serial number are on record: 25 November 2026 (ostrivel-150_0.wav) steady; 25 May 2027 (ostrivel-150_0.wav) steady", "Not tested", "dangerous voltages", "qualified repairer",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}

func TestASheetAsksForNothingFromElsewhere(t *testing.T) {
	s, _ := New(steady(), nil)
	var b bytes.Buffer
	s.Strip = []byte("a picture")
	if err := WriteHTML(&b, s); err != nil {
		t.Fatal(err)
	}
	for _, address := range regexp.MustCompile(`(?:src|href|url)\s*[=(]\s*["']?([^"')\s]{1,30})`).FindAllStringSubmatch(b.String(), -1) {
		if !strings.HasPrefix(address[1], "data:") {
			t.Errorf("it asks for %q", address[1])
		}
	}
}

func TestWhatAPersonSawIsPrintedAsThatAndEscaped(t *testing.T) {
	d := steady()
	d.Observed, d.ObservedBy = []report.Observation{{What: "glass", Seen: "<script>alert(1)</script> & dust"}}, `R. "Mar" <b>`
	s, _ := New(d, nil)
	var b bytes.Buffer
	if err := WriteHTML(&b, s); err != nil {
		t.Fatal(err)
	}
	page := b.String()
	if strings.Contains(page, "<script") || strings.Contains(page, "<b>") {
		t.Error("what a person wrote is taken for a part of the page")
	}
	if !strings.Contains(page, "not measured</h2>") || !strings.Contains(page, "glass: &lt;script&gt;alert(1)&lt;/script&gt; &amp; dust") {
		t.Error("what a person saw is not printed as that")
	}
}

// A name could turn the words beside it around, so that a page read other than it was
// written.
func TestNothingUnseenStandsOnASheet(t *testing.T) {
	const unseen = "\u202enevird\u2066\u200b\u009b31m\x1b[2J\x00\u2029"
	d := steady()
	d.Lens.Name, d.Lens.Serial, d.Lens.Note, d.ObservedBy, d.Policy.House, d.Policy.Name, d.Tool.Version = unseen, unseen, unseen, unseen, unseen, unseen, unseen
	d.Observed = []report.Observation{{What: unseen, Seen: unseen}}
	d.Why, d.Next, d.Clips[0].File, d.Speeds[0].Why = []string{unseen}, unseen, unseen, unseen
	s, err := New(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var page, svg bytes.Buffer
	if err := errors.Join(WriteHTML(&page, s), chart.Write(&svg, d, paper.SVG)); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"the sheet": page.String(), "the chart": svg.String()} {
		if at := strings.IndexAny(text, "\u202e\u2066\u200b\u009b\x1b\x00"); at >= 0 {
			t.Errorf("%s holds %q", name, text[at:at+20])
		}
	}
}

func TestNoSheetIsMadeOfAssumedSpeeds(t *testing.T) {
	if _, err := New(sitting(1, fired{mark("1/4", 0.25), []float64{0.25, 0.25, 0.25}, true}), nil); !errors.Is(err, ErrAssumed) {
		t.Errorf("error %v, want %v", err, ErrAssumed)
	}
	if _, err := New(sitting(1), nil); !errors.Is(err, ErrNothing) {
		t.Errorf("error %v, want %v", err, ErrNothing)
	}
}

func TestAPDFIsOnePageWhateverTheRecordHolds(t *testing.T) {
	for name, d := range map[string]report.Document{"two speeds": steady(), "nine speeds, each off in its own way, of nine clips": many()} {
		s, err := New(d, []report.Document{d, d, d})
		if err != nil {
			t.Fatal(err)
		}
		var one, two bytes.Buffer
		if err := errors.Join(WritePDF(&one, s), WritePDF(&two, s)); err != nil {
			t.Fatal(err)
		}
		if pages := len(regexp.MustCompile(`/Type /Page\b`).FindAll(one.Bytes(), -1)); pages != 1 {
			t.Errorf("%s: %d pages, want 1", name, pages)
		}
		if !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: the same record gives two PDFs", name)
		}
	}
}

func TestAListingIsThreeSentences(t *testing.T) {
	s, _ := New(steady(), nil)
	got := s.Listing()
	want := "Ostrivel 150 mm f/5.6, no. 3318186: the shutter was measured by sound on 25 November 2026 at 1/4, 1/8 s, and the verdict is: steady. " +
		"1/4 s: 0.4 stop slow (more light); set a meter 1/3 stop slower than the mark; partly checked: 2 speeds were judged, and four make a check. " +
		"Fast speeds, aperture, flash contacts and film transport were not tested; sound is not light (earshot v0.1.0, ostrivel-150_0.wav sha256 abababababab)."
	if got != want {
		t.Errorf("Listing() =\n%s\nwant\n%s", got, want)
	}
}

func TestAnEmptyReasonOfARecordIsNotSaid(t *testing.T) {
	d := steady()
	d.Verdict, d.Why = judge.NotJudged, []string{"", "état de service inconnu"}
	for i := range d.Speeds {
		d.Speeds[i].Verdict, d.Speeds[i].Symptoms = judge.NotJudged, nil
	}
	s, err := New(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := errors.Join(WritePDF(io.Discard, s), WriteHTML(&page, s)); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(page.String(), "<li></li>") {
		t.Error("the page has a point with nothing in it")
	}
	if said := s.Listing(); !strings.Contains(said, ". État de service inconnu. ") {
		t.Errorf("the listing says %q", said)
	}
	d.Why = []string{""}
	if s, err = New(d, nil); err != nil || !strings.Contains(s.Listing(), "Nothing to add.") {
		t.Errorf("the listing says %q, %v", s.Listing(), err)
	}
}
