package chart

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"earshot/report"
	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
	"earshot/report/words"
)

// wordsOf is the text of a document's chart.
func wordsOf(t *testing.T, d report.Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d, paper.SVG); err != nil {
		t.Fatal(err)
	}
	return golden.TextOf(t, b.Bytes())
}

func TestTheLegendNamesTheMarksInTheChartAndNoOther(t *testing.T) {
	const first, later, hollow, mean, median, hatched = "first firing", "later firings", "hollow: not judged",
		"mean, 95 % sure within the bar", "median, where a mean would mislead", "speed assumed, not told"
	doubtful, faraway := sample.Healthy(), sample.Healthy()
	doubtful.Firings[1].Judged = false
	away := -3.5
	faraway.Firings[1].Judged, faraway.Firings[1].Deviation = false, &away
	for name, c := range map[string]struct {
		d    report.Document
		want []string
	}{
		"a healthy shutter":                       {sample.Healthy(), []string{first, later, mean}},
		"a shutter with every fault":              {sample.Troubled(), []string{first, later, mean, median}},
		"a hang that was ended later":             {sample.LateHang(), []string{first, later, mean, median}},
		"assumed speeds":                          {sample.Assumed(), []string{first, later, hollow, mean, hatched}},
		"a firing that was not counted":           {doubtful, []string{first, later, hollow, mean}},
		"one not counted that is off the chart":   {faraway, []string{first, later, mean}},
		"nothing heard":                           {report.Document{Policy: sample.Healthy().Policy}, nil},
		"speeds too fast for the ear, and slower": {sample.Eight(), []string{first, later, hollow, mean}},
	} {
		var got []string
		for _, e := range New(c.d).legend() {
			got = append(got, e.Name)
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

func TestTheLegendFitsThePageWhateverIsInIt(t *testing.T) {
	d := sample.Assumed()
	all := sample.Troubled()
	d.Firings, d.Speeds = append(d.Firings, all.Firings...), append(d.Speeds, all.Speeds...)
	for i := range d.Speeds[3:] {
		s := &d.Speeds[3+i]
		s.Firings = slices.Clone(s.Firings)
		for j := range s.Firings {
			s.Firings[j] += 9
		}
	}
	p := page{Figure: New(d), Letters: paper.NewLetters(), c: draw.New(vgsvg.New(paper.PageWidth-2*paper.Margin, pageHeight))}
	rows, entries := p.legendRows(), 0
	for _, row := range rows {
		width := vg.Length(0)
		for _, e := range row {
			width += p.EntryWidth(e)
			entries++
		}
		if width > p.c.Max.X {
			t.Errorf("a row of %v on a page of %v", width, p.c.Max.X)
		}
	}
	if entries != 6 || len(rows) != 2 {
		t.Errorf("%d entries in %d rows, want 6 in 2", entries, len(rows))
	}
}

func TestAFiringThatHungIsSaidToHaveStayedOpen(t *testing.T) {
	d := sample.LateHang()
	if p := New(d).Columns[0].Points[1]; !p.Hung {
		t.Errorf("a closing heard much later is taken for the shutter's: %+v", p)
	}
	words := wordsOf(t, d)
	if !strings.Contains(words, "stayed open at 1 of 3 firings there") || strings.Count(words, "stayed open") != 2 || strings.Contains(words, "not judged") {
		t.Errorf("want it labelled as stayed open, and named in the headline:\n%s", words)
	}
}

func TestFiringsThatClosedEarlyAreNamedOnAndOffTheAxis(t *testing.T) {
	if words := wordsOf(t, sample.Troubled()); strings.Count(words, "closed early") != 1 {
		t.Errorf("want one label:\n%s", words)
	}
	d := sample.Troubled()
	off := -7.0
	for i, f := range d.Firings {
		if f.ClosedEarly() {
			d.Firings[i].Deviation = &off
		}
	}
	if words := wordsOf(t, d); strings.Count(words, "closed early") != 1 || strings.Contains(words, "far off") {
		t.Errorf("want its arrow labelled as closed early:\n%s", words)
	}
}

func TestHeadlinesAreNeverCut(t *testing.T) {
	for name, d := range sample.Examples() {
		f := New(d)
		p := page{Figure: f, Letters: paper.NewLetters(), c: draw.New(vgsvg.New(paper.PageWidth-2*paper.Margin, pageHeight))}
		got := strings.Fields(strings.Join(p.findingLines(), " "))
		for i, w := range got {
			got[i] = strings.TrimSuffix(w, ".") // between sentences set in a row
		}
		want := strings.Fields(p.Legible(strings.Join(f.Findings, " ")))
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

func TestAMedianIsSaidToBeOne(t *testing.T) {
	for _, c := range New(sample.Troubled()).Columns {
		if c.Mean.Median != strings.HasPrefix(c.Cells[1], "median ") {
			t.Errorf("%s: median %v is shown as %q", c.Marked, c.Mean.Median, c.Cells[1])
		}
	}
	d := sample.NewSitting("Nine").FiredAt(map[string][]float64{"4s": {0, 0, .6}, "2s": {0, 0, .6}, "1": {0, 0, .6}, "1/2": {0, 0, .6}, "1/4": {0, 0, .6}, "1/8": {0, 0, .6}, "1/15": {0, 0, .6}, "1/30": {0, 0, .6}, "1/60": {0, 0, .6}})
	if words := wordsOf(t, d); strings.Count(words, "median ") != 9 || strings.Contains(words, "…") {
		t.Errorf("medians are cut where columns are narrow:\n%s", words)
	}
}

func TestStopsThatRoundToNoughtHaveNoSign(t *testing.T) {
	for x, want := range map[float64]string{0.004: "0.00", -0.004: "0.00", 0: "0.00", 0.006: "+0.01", -0.006: "−0.01", -1.25: "−1.25"} {
		if got := words.Signed(x); got != want {
			t.Errorf("signed(%v) = %q, want %q", x, got, want)
		}
	}
}

func TestAProgramWithoutAVersionClaimsNone(t *testing.T) {
	d := sample.Healthy()
	d.Tool.Version = ""
	if got := New(d).Footer[0]; !strings.HasSuffix(got, "Measured by earshot.") {
		t.Errorf("footer %q", got)
	}
}

func TestTheCaptionsOfAPDFIdentifyTheLens(t *testing.T) {
	d := sample.Healthy()
	if got := captions(d, New(d))[0]; !strings.HasPrefix(got, "Corvane 105 mm f/3.5, no. 20417. 25 November 2026.") {
		t.Errorf("caption %q", got)
	}
}
