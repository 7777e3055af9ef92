package chart

import (
	"bytes"
	"errors"
	"image"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
)

func TestTheSameDocumentGivesTheSameBytes(t *testing.T) {
	for _, f := range []paper.Format{paper.PNG, paper.SVG, paper.PDF} {
		var one, two bytes.Buffer
		if err := errors.Join(Write(&one, sample.Troubled(), f), Write(&two, sample.Troubled(), f)); err != nil {
			t.Errorf("%s: %v", f, err)
		}
		if one.Len() == 0 || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: %d and %d bytes that differ", f, one.Len(), two.Len())
		}
	}
}

func TestEveryChartCanBeDrawn(t *testing.T) {
	for name, d := range sample.Examples() {
		if err := Write(io.Discard, d, paper.SVG); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		golden.LookAt(t, name, func() ([]byte, error) { return paper.PNGBytes(paper.Picture{Size: New(d).size, Draw: New(d).draw}, 96) })
	}
}

func TestEveryFiringIsAPointInTheOrderFired(t *testing.T) {
	d := sample.Troubled()
	f := New(d)
	for i, s := range d.Speeds {
		c := f.Columns[i]
		if len(c.Points) != len(s.Firings) {
			t.Fatalf("%s: %d points for %d firings", s.Marked, len(c.Points), len(s.Firings))
		}
		for j, p := range c.Points {
			firing := d.Firings[s.Firings[j]]
			if p.First != (j == 0) || p.Hung != (firing.Duration == nil) {
				t.Errorf("%s, firing %d: %+v", s.Marked, j, p)
			}
			if !p.Hung && p.Deviation != *firing.Deviation {
				t.Errorf("%s, firing %d is plotted at %v, want %v", s.Marked, j, p.Deviation, *firing.Deviation)
			}
		}
	}
	if hung := f.Columns[1].Points; !hung[0].Hung || hung[1].Hung || !hung[2].Hung {
		t.Errorf("hung firings are not where they were: %+v", hung)
	}
}

func TestAMeanStandsOnlyWhereOneIsTold(t *testing.T) {
	for i, c := range New(sample.Troubled()).Columns {
		if want := i == 1 || i == 2 || i == 4; c.Mean.Median != want {
			t.Errorf("%s: median %v, want %v", c.Marked, c.Mean.Median, want)
		}
	}
	d := sample.Healthy()
	for i, c := range New(d).Columns {
		if c.Mean.Deviation != *d.Speeds[i].Deviation || c.Mean.U95 != *d.Speeds[i].U95 {
			t.Errorf("%s: mean %+v", c.Marked, *c.Mean)
		}
	}
}

func TestWhatIsNotJudgedIsHollow(t *testing.T) {
	for _, c := range New(sample.Assumed()).Columns {
		for _, p := range c.Points {
			if p.Judged {
				t.Errorf("%s: a firing at an assumed speed is filled", c.Marked)
			}
		}
		if !c.Assumed {
			t.Errorf("%s is not told apart as assumed", c.Marked)
		}
	}
	d := sample.Healthy()
	d.Firings[1].Judged = false
	p := New(d).Columns[0].Points
	if !p[0].Judged || p[1].Judged || !p[2].Judged {
		t.Errorf("firing 2 alone should be hollow: %+v", p)
	}
}

func TestTheAxisHoldsLimitsAndMarks(t *testing.T) {
	for name, d := range sample.Examples() {
		f := New(d)
		if f.Low > -f.Service || f.High < f.Service {
			t.Errorf("%s: axis from %v to %v leaves out the limit of %v", name, f.Low, f.High, f.Service)
		}
		for _, c := range f.Columns {
			for _, p := range c.Points {
				if !p.Hung && math.Abs(p.Deviation) < farthest && (p.Deviation < f.Low || p.Deviation > f.High) {
					t.Errorf("%s: %v lies off the axis from %v to %v", name, p.Deviation, f.Low, f.High)
				}
			}
		}
	}
}

func TestADoubtfulFiringFarOffDoesNotStretchTheAxis(t *testing.T) {
	d := sample.Healthy()
	calm := New(d)
	far := -3.5
	d.Firings[1].Judged, d.Firings[1].Deviation = false, &far
	if f := New(d); f.Low != calm.Low || f.Columns[0].Points[1].Deviation != far {
		t.Errorf("axis from %v, want %v as without it", f.Low, calm.Low)
	}
}

func TestTicksAreThirdsInWords(t *testing.T) {
	var got []string
	for _, k := range ticks(-0.8, 1.4) {
		got = append(got, k.Label)
	}
	want := []string{"−2/3", "−1/3", "0", "+1/3", "+2/3", "+1", "+1 1/3"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("ticks (-want +got):\n%s", d)
	}
}

func TestFiringsStandSideBySideLeftOfTheMean(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for i := range n {
			if x := slot(i, n); x < -0.37 || x > 0.13 || i > 0 && x <= slot(i-1, n) {
				t.Errorf("slot(%d, %d) = %v", i, n, x)
			}
		}
	}
}

func TestAListingPictureSaysAllAlone(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample.Troubled(), paper.SVG); err != nil {
		t.Fatal(err)
	}
	text := golden.TextOf(t, b.Bytes())
	for _, want := range []string{
		"Ostrel 80 mm f/2.8, no. 20417", "25 November 2026", "service advised at the speeds measured, 1 to 1/15 s", "hangs open at 1/2 s",
		"good within", "±1/3 stop", "service beyond", "1/2 stop slow", "slow", "more light", "fast", "less light",
		"first firing", "later firings", "stayed open", "closed early", "3f2a9c1be7d0", "corvane-105.wav", "not by light",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the chart does not say %q:\n%s", want, text)
		}
	}
}

func TestThePictureIsLargeEnoughForAListing(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample.Healthy(), paper.PNG); err != nil {
		t.Fatal(err)
	}
	c, _, err := image.DecodeConfig(&b)
	if err != nil || c.Width != 1600 || c.Height < 1000 || c.Height > 1200 {
		t.Errorf("%d × %d px, %v", c.Width, c.Height, err)
	}
}

func TestNamesThatCannotBeDrawnAreNotDropped(t *testing.T) {
	l := paper.NewLetters()
	for in, want := range map[string]string{"⅓ stop ±−↑": "⅓ stop ±−↑", "快门 ✓": "?? ?", "a\x00\nb": "a??b", "\xff": "?"} {
		if got := l.Legible(in); got != want {
			t.Errorf("legible(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestHostileNamesStayTextInSVG(t *testing.T) {
	d := sample.Healthy()
	d.Lens.Name = `</text><script>alert("x")</script>`
	var b bytes.Buffer
	if err := Write(&b, d, paper.SVG); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "<script") || !strings.Contains(golden.TextOf(t, b.Bytes()), "<script>") {
		t.Error("a name was taken for markup")
	}
}

func TestVeryLongNamesKeepTheSerialNumber(t *testing.T) {
	d := sample.Eight()
	d.Lens.Name = strings.Repeat(d.Lens.Name, 1000)
	d.Clips[0].File = strings.Repeat("x", 100_000)
	var b bytes.Buffer
	if err := Write(&b, d, paper.SVG); err != nil {
		t.Fatal(err)
	}
	if text := golden.TextOf(t, b.Bytes()); !strings.Contains(text, "…, no. 20417") {
		t.Errorf("the serial number is gone:\n%.300s", text)
	}
}

func TestTheSVGStaysAsItIs(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample.Troubled(), paper.SVG); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "troubled.svg", b.Bytes())
}

func TestEveryTextOfAnSVGKnowsItsLength(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample.Eight(), paper.SVG); err != nil {
		t.Fatal(err)
	}
	texts, lengths := strings.Count(b.String(), "<text "), strings.Count(b.String(), "<text textLength=\"")
	if texts < 40 || texts != lengths || strings.Contains(b.String(), `textLength="0.00"`) {
		t.Errorf("%d texts, %d with a length", texts, lengths)
	}
}
