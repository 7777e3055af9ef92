package main

import (
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// figure is a number that is measured: one with decimals or of four digits and more,
// before its unit. Counts, marks, dates and names are none.
var figure = regexp.MustCompile(`([0-9]+\.[0-9]+|[0-9]{4,})( ms| stop| s\b)`)

// differences compares a page with what a run makes of it: words, layout, counts and
// checksums exactly, measured figures one by one to one unit of their last digit. A
// machine that fuses multiplication and addition computes the last bits otherwise,
// which can move a figure across the edge of its rounding, and no further. It is empty
// where the two are alike.
func differences(page, run string) string {
	blank := func(s string) string { return figure.ReplaceAllString(s, "#$2") }
	if d := cmp.Diff(blank(page), blank(run)); d != "" {
		return "(-page +run)\n" + d
	}
	told, ran := figure.FindAllStringSubmatch(page, -1), figure.FindAllStringSubmatch(run, -1)
	var out []string
	for i := range told {
		if !sameFigure(told[i][1], ran[i][1]) {
			out = append(out, fmt.Sprintf("the page says %s, the run %s", told[i][0], ran[i][0]))
		}
	}
	return strings.Join(out, "\n")
}

// portable blanks checksums on machines that may fuse, where a sample of the demo may
// be rounded the other way.
func portable(page string) string {
	if runtime.GOARCH == "amd64" {
		return page
	}
	return regexp.MustCompile(`sha256 [0-9a-f]{12}`).ReplaceAllString(page, "sha256")
}

// sameFigure tells whether two figures have as many digits and are at most one unit of
// the last apart.
func sameFigure(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	_, decimals, _ := strings.Cut(a, ".")
	unit := math.Pow10(-len(decimals))
	return errX == nil && errY == nil && len(a) == len(b) && math.Abs(x-y) < 1.5*unit
}

func TestAPageIsHeldToItsRunNumberByNumber(t *testing.T) {
	const page = "1/15 s   62.5 ms  61.89 ms  0.8 stop slow  ±0.05 stop  1735 ms  3  steady, 20 firings, sha256 833818069094\n"
	for name, c := range map[string]struct {
		old, new string
		alike    bool
	}{
		"nothing changed":                           {"x", "x", true},
		"a figure rounded the other way":            {"61.89 ms", "61.90 ms", true},
		"a whole figure rounded the other way":      {"1735 ms", "1734 ms", true},
		"a figure two units off":                    {"61.89 ms", "61.91 ms", false},
		"a figure of other digits at another place": {"1735 ms", "1835 ms", false},
		"a deviation that changed":                  {"0.8 stop", "0.6 stop", false},
		"an uncertainty that changed":               {"±0.05 stop", "±0.50 stop", false},
		"a count":                                   {"  3  ", "  4  ", false},
		"a count of firings":                        {"20 firings", "21 firings", false},
		"a mark":                                    {"1/15 s", "1/16 s", false},
		"a checksum":                                {"833818069094", "833818069095", false},
		"a word":                                    {"steady", "sturdy", false},
		"a figure with a digit more":                {"61.89 ms", "161.89 ms", false},
	} {
		if d := differences(page, strings.Replace(page, c.old, c.new, 1)); (d == "") != c.alike {
			t.Errorf("%s: differences = %q, want alike %v", name, d, c.alike)
		}
	}
}

// unlikeShare is the share of a picture's pixels that may differ: what two digits take
// up, rounded the other way.
const unlikeShare = 1e-4

// unlikePixels is the share of the pixels of two PNG files that differ by more than an
// eighth of the range, 1 where their sizes do.
func unlikePixels(t *testing.T, one, two string) float64 {
	t.Helper()
	a, b := readPNG(t, one), readPNG(t, two)
	if a.Bounds() != b.Bounds() {
		return 1
	}
	size, unlike := a.Bounds(), 0
	for y := size.Min.Y; y < size.Max.Y; y++ {
		for x := size.Min.X; x < size.Max.X; x++ {
			r, g, bl, _ := a.At(x, y).RGBA()
			r2, g2, bl2, _ := b.At(x, y).RGBA()
			if apart(r, r2) || apart(g, g2) || apart(bl, bl2) {
				unlike++
			}
		}
	}
	return float64(unlike) / float64(size.Dx()*size.Dy())
}

func apart(a, b uint32) bool { return max(a, b)-min(a, b) > 0xFFFF/8 }

func readPNG(t *testing.T, file string) image.Image {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	picture, err := png.Decode(f)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	return picture
}
