package heard

import (
	"bytes"
	"errors"
	"image/png"
	"math"
	"strings"
	"testing"

	"earshot/dsp/describe"
	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
	"earshot/report/words"
)

// clicks is a clip with a click at every opening and closing of a document, drawn in no
// more columns than say what it is.
func clicks(d report.Document) Look {
	return func(clip int, from, to float64, columns int) ([]describe.Column, error) {
		n := min(columns, 24)
		all := make([]describe.Column, n)
		for i := range all {
			all[i] = describe.Column{Min: -0.001, Max: 0.001, Level: -70}
		}
		for _, f := range d.Firings {
			ends := []float64{f.Open}
			if f.Close != nil {
				ends = append(ends, *f.Close)
			}
			for _, at := range ends {
				if k := int(float64(n) * (at - from) / (to - from)); f.Clip == clip && at >= from && k < n {
					all[k] = describe.Column{Min: -0.3, Max: 0.4, Level: -20}
				}
			}
		}
		return all, nil
	}
}

func drawnFirings(t *testing.T, d report.Document) Firings {
	t.Helper()
	f, err := NewFirings(d, clicks(d))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// puzzling is a shutter that hangs, closes early, and has a firing that fits nothing, one
// at no speed, and one that the clip cuts short.
func puzzling() report.Document {
	d := sample.Troubled()
	d.Firings = d.Firings[:len(d.Firings):len(d.Firings)]
	doubtful := &d.Firings[1]
	doubtful.Judged, doubtful.Reason = false, "could be 1/2 or 1: both fit about as well"
	at := d.Firings[len(d.Firings)-1].Open + 3
	close, duration := at+0.02, 0.02
	return withFirings(d,
		report.Firing{Open: at, Close: &close, Duration: &duration, Reason: "fits none of the settings told"},
		report.Firing{Open: at + 2, Reason: "the clip ends before it closes"})
}

func withFirings(d report.Document, more ...report.Firing) report.Document {
	d.Firings = append(d.Firings, more...)
	return d
}

func TestEveryFiringHasOnePanelUnderItsSpeed(t *testing.T) {
	d := puzzling()
	f := drawnFirings(t, d)
	seen := map[float64]string{}
	for _, s := range f.strips {
		for _, p := range s.Panels {
			if other, twice := seen[p.Open]; twice {
				t.Errorf("the firing at %g s is under %s and %s", p.Open, other, s.Title)
			}
			seen[p.Open] = s.Title
		}
	}
	for i, firing := range d.Firings {
		want := "At no speed"
		if firing.Marked != nil {
			want = words.Mark(*firing.Marked)
		}
		if got := seen[firing.Open]; got != want {
			t.Errorf("firing %d is under %q, want %q", i+1, got, want)
		}
	}
}

func TestPanelsOfASpeedAreAlignedAtTheOpeningAndToOneScaleOfTime(t *testing.T) {
	for name, d := range sample.Examples() {
		for _, s := range strips(d) {
			for _, p := range s.Panels {
				first := s.Panels[0]
				if math.Abs(p.To-p.From-s.span()) > 1e-9 || math.Abs(p.Open-p.From-(first.Open-first.From)) > 1e-9 {
					t.Errorf("%s, %s: from %g over %g to %g s", name, s.Title, p.From, p.Open, p.To)
				}
			}
		}
	}
}

func TestAFiringThatClosedIsSeenToCloseUnlessItIsFarLongerThanTheOthers(t *testing.T) {
	for name, d := range sample.Examples() {
		if name == "far-off" {
			continue // 6.2 stops slow among 0.3
		}
		for _, s := range strips(d) {
			for _, p := range s.Panels {
				if stayed := p.Time == "stayed open"; p.leaves() != stayed {
					t.Errorf("%s, %s, firing %s: leaves its panel %v, stayed open %v", name, s.Title, p.Number, p.leaves(), stayed)
				}
			}
		}
	}
}

func TestOneFiringFarTooLongDoesNotPressTheOthersTogether(t *testing.T) {
	s := strips(sample.FarOff())
	if quarter := s[len(s)-1]; quarter.span() > 1 {
		t.Errorf("panels of 1/4 s show %g s", quarter.span())
	}
}

func TestWhatIsNotJudgedIsToldByMarkAndWord(t *testing.T) {
	want := map[string]struct {
		time, note       string
		doubtful, judged bool
		leaves           bool
	}{
		"1":    {"1765 ms", "", false, true, false},
		"? 2":  {"1526 ms", "not counted: could be 1/2 or 1: both fit about as well", true, false, false},
		"6":    {"stayed open", "", false, false, true},
		"18":   {"23.68 ms", "closed early", false, true, false},
		"? 20": {"20.00 ms", "not counted: fits none of the settings told", true, false, false},
		"? 21": {"no closing", "not counted: the clip ends before it closes", true, false, true},
	}
	for _, s := range strips(puzzling()) {
		for _, p := range s.Panels {
			w, ok := want[p.Number]
			if !ok {
				continue
			}
			delete(want, p.Number)
			if note := strings.Join(p.Notes, "; "); p.Time != w.time || note != w.note || p.Doubtful != w.doubtful || p.Judged != w.judged || p.leaves() != w.leaves {
				t.Errorf("panel %s: %q, %q, doubtful %v, judged %v, leaves %v; want %+v", p.Number, p.Time, note, p.Doubtful, p.Judged, p.leaves(), w)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("no panel for %v", want)
	}
}

func TestPanelsSayWhichFiringWasTheFirstAfterARestAndWhatWasSetByHand(t *testing.T) {
	d := sample.AfterRest(sample.Healthy, 3)
	d.Clips[0].ByHand = &report.ByHand{File: "hand.txt", Moved: 1, AsHeard: 17}
	f := drawnFirings(t, d)
	if notes := f.strips[1].Panels[0].Notes; len(notes) != 1 || notes[0] != "first after 90 d rest" {
		t.Errorf("notes of firing 4: %q", notes)
	}
	if !strings.Contains(f.Counts, d.ByHandWords()) {
		t.Errorf("counts: %q", f.Counts)
	}
}

func TestFiringsAtNoSpeedStandWithThoseOfTheirLength(t *testing.T) {
	d := sample.Healthy()
	for i := range d.Firings {
		d.Firings[i].Marked, d.Firings[i].Nominal, d.Firings[i].Judged = nil, nil, false
	}
	d.Speeds = nil
	all := strips(d)
	if len(all) != 6 {
		t.Fatalf("%d strips, want the 6 speeds apart", len(all))
	}
	for _, s := range all {
		if len(s.Panels) != 3 || s.Title != "At no speed" {
			t.Errorf("%q with %d panels", s.Title, len(s.Panels))
		}
	}
}

func TestAReasonThatAllShareIsSaidOnce(t *testing.T) {
	d := sample.Healthy()
	for i := range d.Firings {
		d.Firings[i].Judged, d.Firings[i].Reason = false, "in doubt"
	}
	b, err := drawnFirings(t, d).Page(0, paper.SVG)
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(golden.TextOf(t, b), "not counted: in doubt"); n != len(d.Speeds) {
		t.Errorf("said %d times for %d speeds", n, len(d.Speeds))
	}
}

// many is a shutter fired n times at each of six speeds.
func many(n int) report.Document {
	deviations := map[string][]float64{}
	for _, mark := range []string{"1", "1/2", "1/4", "1/8", "1/15", "1/30"} {
		deviations[mark] = make([]float64, n)
	}
	return sample.NewSitting("Vastrel 90 mm").FiredAt(deviations)
}

func TestSixtyFiringsFitOnePictureAndMoreTakeSeveral(t *testing.T) {
	for n, pages := range map[int]int{1: 1, 3: 1, 10: 1, 20: 2, 50: 4} {
		f := drawnFirings(t, many(n))
		if f.Pages() != pages {
			t.Errorf("%d firings take %d pictures, want %d", 6*n, f.Pages(), pages)
		}
		drawn := 0
		for i, page := range f.pages {
			for _, r := range page {
				drawn += len(r.panels)
			}
			width, height := firingsPage{Firings: f, letters: newLetters(), rows: page, number: i}.size()
			if width != paper.PageWidth || height > highestPage+2*paper.Margin+paper.LegendRow {
				t.Errorf("%d firings: a page of %v by %v", 6*n, width, height)
			}
			if !page[0].first {
				t.Errorf("%d firings: page %d begins without a title", 6*n, i)
			}
		}
		if drawn != 6*n {
			t.Errorf("%d of %d firings are drawn", drawn, 6*n)
		}
	}
}

func TestNothingHeardIsSaid(t *testing.T) {
	b, err := drawnFirings(t, report.Document{Policy: sample.Healthy().Policy}).Page(0, paper.SVG)
	if err != nil || !strings.Contains(golden.TextOf(t, b), "no firing was heard") {
		t.Errorf("%v, %s", err, b)
	}
}

func TestThePictureOfFiringsIsAsWideAsTheChart(t *testing.T) {
	b, err := drawnFirings(t, sample.Healthy()).Page(0, paper.PNG)
	if err != nil {
		t.Fatal(err)
	}
	c, err := png.DecodeConfig(bytes.NewReader(b))
	if err != nil || c.Width != 1600 {
		t.Errorf("%d px wide, %v", c.Width, err)
	}
}

func TestTheLegendOfFiringsNamesTheMarksInItAndNoOther(t *testing.T) {
	usual := []string{"opening", "closing", "waveform", "level in dB, faint sounds too"}
	for name, c := range map[string]struct {
		d    report.Document
		want []string
	}{
		"a healthy shutter": {sample.Healthy(), usual},
		"assumed speeds":    {sample.Assumed(), append(usual[:4:4], "hollow: not judged")},
		"every kind":        {puzzling(), append(usual[:4:4], "hollow: not judged", "dashed: not counted", "still open")},
	} {
		f := drawnFirings(t, c.d)
		var got []string
		for _, e := range (firingsPage{Firings: f, letters: newLetters(), rows: f.pages[0]}).legend() {
			got = append(got, e.Name)
		}
		if strings.Join(got, "|") != strings.Join(c.want, "|") {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

func TestAScaleBarIsARoundTimeUpToAThirdOfAPanel(t *testing.T) {
	for span, want := range map[float64]string{0.0912: "20 ms", 1.4: "200 ms", 0.35: "100 ms", 9: "2 s", 0.024: "5 ms", 0.0031: "1 ms", 0.0016: "0.5 ms"} {
		long, name := scaleBar(span)
		if name != want || long > span/3 || long < span/8 {
			t.Errorf("%g s has a bar of %g s, %q, want %q", span, long, name, want)
		}
	}
}

func TestNoiseAloneIsNoLoudFiring(t *testing.T) {
	noise := -50.0
	s := scaleOf([]Panel{{columns: []describe.Column{{Min: -0.001, Max: 0.001, Level: -60}}, From: 0, To: 1, Open: 0.5, Close: math.Inf(1)}}, &noise)
	if s.swing(math.Pow(10, noise/20)) > 0.1 || s.level(noise) > 0.1 {
		t.Errorf("noise swings %g of the way to the edge, its level is %g", s.swing(math.Pow(10, noise/20)), s.level(noise))
	}
}

func TestALookThatFailsIsTold(t *testing.T) {
	gone := errors.New("gone")
	_, err := NewFirings(sample.Healthy(), func(int, float64, float64, int) ([]describe.Column, error) { return nil, gone })
	if !errors.Is(err, gone) {
		t.Errorf("error %v", err)
	}
}

func TestAStripShowsTheFiringsAskedForInASize(t *testing.T) {
	d := sample.Healthy()
	b, err := DrawStrip(d, d.Speeds[2].Firings, clicks(d), 300, 75, paper.SVG)
	if err != nil {
		t.Fatal(err)
	}
	text := golden.TextOf(t, b)
	for _, want := range []string{"7", "8", "9", "246.6 ms"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %q", want, text)
		}
	}
	if !bytes.Contains(b, []byte(`width="300pt"`)) {
		t.Errorf("not 300 pt wide: %.300s", b)
	}
	if _, err := DrawStrip(d, nil, clicks(d), 300, 75, paper.SVG); err == nil {
		t.Error("a strip of nothing is no error")
	}
}

func TestTheFiringsStayAsTheyAre(t *testing.T) {
	b, err := drawnFirings(t, puzzling()).Page(0, paper.SVG)
	if err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "firings.svg", b)
	golden.LookAt(t, "firings", func() ([]byte, error) { return drawnFirings(t, puzzling()).Page(0, paper.PNG) })
}
