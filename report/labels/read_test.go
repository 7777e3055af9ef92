package labels_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"earshot/report/labels"
)

func TestALabelIsReadAsAPersonWouldWriteIt(t *testing.T) {
	for _, c := range []struct {
		name, text  string
		open, close float64
		mark        string // empty for none
	}{
		{"with the speed as on the dial", "1.472108\t2.456421\t1, firing 1\n", 1.472108, 2.456421, "1"},
		{"with a numeral of the dial", "1\t2\t30 again", 1, 2, "1/30"},
		{"with a fraction typed as one sign", "1\t2\t½", 1, 2, "1/2"},
		{"with seconds in full", "1\t2\t0.5s", 1, 2, "1/2"},
		{"with the s apart", "1\t3\t2 s, firing 1", 1, 3, "2s"},
		{"with the word for seconds", "1\t3\t2 seconds", 1, 3, "2s"},
		{"with no speed", "1\t2\tfiring 1, 1/4 assumed", 1, 2, ""},
		{"with no label", "1\t2\t", 1, 2, ""},
		{"without a second tab", "1\t2", 1, 2, ""},
		{"with spaces about the times", " 1.5 \t 2.5\t 1/4 ", 1.5, 2.5, "1/4"},
		{"with the line ends of another system", "1\t2\t1/4\r\n\r\n", 1, 2, "1/4"},
		{"with a byte order mark", "\ufeff1\t2\t1/4", 1, 2, "1/4"},
		{"with a tab in its label", "1\t2\t1/4\tfiring 1", 1, 2, "1/4"},
		{"that never closed", "1.25\t1.250\t1/4, NEVER closed", 1.25, 0, "1/4"},
		{"without a digit before the point", ".5\t1", 0.5, 1, ""},
	} {
		track, err := labels.Read(strings.NewReader(c.text))
		if err != nil || len(track.Labels) != 1 {
			t.Errorf("%s: %v, %v", c.name, track, err)
			continue
		}
		l := track.Labels[0]
		if l.Open != c.open || l.Close != c.close || l.Closed != (c.close > 0) || l.Mark.Label != c.mark || l.Line != 1 {
			t.Errorf("%s: read %+v", c.name, l)
		}
	}
}

func TestAWrongLabelIsRefusedAtItsPlaceWithWhatToWrite(t *testing.T) {
	for _, c := range []struct {
		name, text   string
		line, column int
		says         string
	}{
		{"a decimal comma", "1\t2\n3,25\t4\n", 2, 1, `"3,25" has a comma: write it with a point, 3.25`},
		{"a decimal comma in the end", "3\t4,125\t1/4", 1, 3, "4.125"},
		{"a time before the clip", "-0.5\t1", 1, 1, "before the clip's start"},
		{"a typeset minus", "−0.5\t1", 1, 1, "before the clip's start"},
		{"no number", "NaN\t1", 1, 1, `"NaN" is no time`},
		{"an infinite one", "1\t +Inf", 1, 4, `"+Inf" is no time`},
		{"an exponent", "1e3\t2", 1, 1, "is no time"},
		{"minutes", "0:01\t0:02", 1, 1, "write seconds from the clip's start"},
		{"a number without end", "1\t" + strings.Repeat("9", 400), 1, 3, "is no time"},
		{"a missing end", "1\t\t1/4", 1, 3, "a time is missing"},
		{"a missing start", "\t1", 1, 1, "a time is missing"},
		{"spaces for tabs", "1.0 2.0 1/4", 1, 1, "there is no tab"},
		{"an end before its start", "\n2\t1\t1/4", 2, 1, "it ends at 1 s, before it starts at 2 s"},
		{"overlap", "1\t3\t1\n\n2\t4\t1", 3, 1, "overlaps with the label of line 1"},
		{"overlap out of order", "2\t4\n1\t3", 1, 1, "overlaps with the label of line 2"},
		{"the same label twice", "1\t2\n1\t2", 2, 1, "overlaps with the label of line 1"},
		{"one that touches another", "1\t2\n2\t3", 2, 1, "overlaps"},
		{"a point that says nothing", "1\t1\tspeech", 1, 5, `say "never closed" in it`},
		{"a speed that is none", "1\t2\t 1/0", 1, 6, `begins with "1/0", which is no speed`},
		{"a decimal speed without its s", "1\t2\t0.5", 1, 5, "0.5s"},
		{"another coding", "\xff\xfe1\x00\t\x002\x00", 1, 1, "save the labels as UTF-8 text"},
		{"zeros in it", "1\t2\t\x00", 1, 1, "not plain text"},
		{"a file too large", strings.Repeat("\n", 2<<20), 1, 1, "no file of labels"},
	} {
		_, err := labels.Read(strings.NewReader(c.text))
		var at *labels.Error
		if !errors.As(err, &at) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if at.Line != c.line || at.Column != c.column || !strings.Contains(at.Problem, c.says) {
			t.Errorf("%s: %v; want line %d, column %d, %q", c.name, err, c.line, c.column, c.says)
		}
	}
}

func TestLabelsMayStandInAnyOrder(t *testing.T) {
	track, err := labels.Read(strings.NewReader("5\t6\t1/2\n1\t2\t1\n3.125\t4\n"))
	if err != nil {
		t.Fatal(err)
	}
	times, marks := track.Times(), track.Marks()
	if times[0].Open != 1 || times[1].Open != 3.125 || times[2].Close != 6 || marks[0].Label != "1" || marks[2].Label != "1/2" {
		t.Errorf("read %v and %v", times, marks)
	}
	if track.Step != 1e-3 {
		t.Errorf("the last digit of 3.125 is %g s", track.Step)
	}
}

func TestALabelBeyondTheClipIsNamedByItsLine(t *testing.T) {
	track, err := labels.Read(strings.NewReader("1\t2\n\n9.50\t10.51\n"))
	if err != nil {
		t.Fatal(err)
	}
	if err := track.Within(10.51); err != nil {
		t.Errorf("one that ends with the clip: %v", err)
	}
	var at *labels.Error
	if err := track.Within(10.5); !errors.As(err, &at) || at.Line != 3 || !strings.Contains(err.Error(), "beyond the clip's end at 10.5 s") {
		t.Errorf("one that ends after it: %v", err)
	}
}

// FuzzRead holds for any bytes: no panic, and what is read are firings that one
// shutter can have made, or else an error that names a place in the file.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"1.472108\t2.456421\t1, firing 1\n3\t3\t1/4, never closed\n", "\ufeff1\t2\r\n5\t6\t30\r\n", "1,5\t2\t1", "-1\t2", "NaN\tInf\t1/0", "2\t1\n", "1 2 3", "\xff\xfe1\x00", "1\t2\t1/4x3", ".\t.", "1\t2\t½ s",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		track, err := labels.Read(strings.NewReader(string(b)))
		if err != nil {
			var at *labels.Error
			if !errors.As(err, &at) || at.Line < 1 || at.Column < 1 || at.Problem == "" {
				t.Fatalf("%v", err)
			}
			return
		}
		last := math.Inf(-1)
		for _, l := range track.Labels {
			if !(l.Open > last && l.Open >= 0 && l.Open < math.Inf(1)) || l.Closed && !(l.Close > l.Open && l.Close < math.Inf(1)) {
				t.Fatalf("after %g s: %+v", last, l)
			}
			last = max(l.Open, l.Close)
			if (l.Mark.Label == "") != (l.Mark.Nominal == 0) || l.Line < 1 {
				t.Fatalf("%+v", l)
			}
		}
		if !(track.Step > 0 && track.Step <= 1) {
			t.Fatalf("a last digit of %g s", track.Step)
		}
	})
}
