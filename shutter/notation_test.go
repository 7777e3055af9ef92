package shutter

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSpeedsAreReadAsOnTheDialOrInFull(t *testing.T) {
	for word, want := range map[string]Mark{
		"1": {"1", 1}, "1s": {"1", 1}, "1/1": {"1", 1}, "1.0s": {"1", 1},
		"2": {"1/2", 0.5}, "1/2": {"1/2", 0.5}, "0.5s": {"1/2", 0.5}, "½": {"1/2", 0.5}, ".5s": {"1/2", 0.5},
		"30": {"1/30", 1.0 / 32}, "1/30": {"1/30", 1.0 / 32}, "1⁄30": {"1/30", 1.0 / 32}, "1/30s": {"1/30", 1.0 / 32}, "030": {"1/30", 1.0 / 32},
		"0.0625s": {"1/15", 0.0625}, "1/16": {"1/16", 0.0625},
		"2s": {"2s", 2}, "4s": {"4s", 4}, "3s": {"3s", 3}, "1.5s": {"1.5s", 1.5}, "30s": {"30s", 30},
		"1/5": {"1/5", 0.2}, "0.2s": {"1/5", 0.2}, "⅕": {"1/5", 0.2}, "25": {"1/25", 0.04},
		"1/250": {"1/250", 1.0 / 256}, "0.004s": {"0.004s", 0.004},
		"1/300": {"1/300", 1.0 / 300}, "10000": {"1/10000", 0.0001},
	} {
		if got, err := ParseMark(word); err != nil || got != want {
			t.Errorf("ParseMark(%q) = %v, %v, want %v", word, got, err, want)
		}
	}
}

func TestWhatIsNoSpeedIsRefusedWithWhatToWrite(t *testing.T) {
	for word, say := range map[string]string{
		"":        "no speed told: write it as on the dial",
		"abc":     `speed "abc": write it as on the dial or in full: 1, 1/30, 30 (for 1/30), 2s or 0.5s`,
		"0":       "decimals take a point, 0.5s",
		"0.5":     "a decimal needs an s for seconds: 0.5s",
		"1½":      `speed "1½": write it as on the dial`,
		"2/3":     "write it as on the dial",
		"1/0":     "write it as on the dial",
		"1/-4":    "write it as on the dial",
		"1/+4":    "write it as on the dial",
		"-2s":     "write it as on the dial",
		"1e3s":    "write it as on the dial",
		"infs":    "write it as on the dial",
		"s":       "write it as on the dial",
		"0s":      "outside 1/10000 to 60 s",
		"61s":     "outside 1/10000 to 60 s",
		"1/10001": "outside 1/10000 to 60 s",
		"1x3":     "write it as on the dial",
		"T":       "write it as on the dial",
	} {
		_, err := ParseMark(word)
		if !errors.Is(err, ErrNotation) || !strings.Contains(err.Error(), say) {
			t.Errorf("ParseMark(%q) says %v, want %q", word, err, say)
		}
	}
	if _, err := ParseMark(strings.Repeat("9", 1<<16) + "s"); err == nil || len(err.Error()) > 200 {
		t.Errorf("an endless word is refused with %d bytes, want a short line", len(err.Error()))
	}
}

func TestListsOfSettingsAreRead(t *testing.T) {
	want := []Step{{Mark{"1", 1}, 3}, {Mark{"1/2", 0.5}, 3}, {Mark{"1/4", 0.25}, 5}}
	for _, list := range []string{"1x3 1/2x3 1/4x5", "1x3,1/2x3,1/4x5", " 1×3, ½X3;\t4x5\n", "1sx3 0.5sx3 0.25sx5"} {
		if got, err := ParseSteps(list); err != nil || !slices.Equal(got, want) {
			t.Errorf("ParseSteps(%q) = %v, %v, want %v", list, got, err, want)
		}
	}
	if got, err := ParseSteps("1 2s 1"); err != nil || !slices.Equal(got, []Step{{Mark: Mark{"1", 1}}, {Mark: Mark{"2s", 2}}, {Mark: Mark{"1", 1}}}) {
		t.Errorf("a mark told twice without counts is %v, %v", got, err)
	}
}

func TestTheWordThatIsWrongIsNamedWithItsPlace(t *testing.T) {
	for _, c := range []struct {
		list, word string
		position   int
		say        string
	}{
		{"1x3 1/2x 1/4", "1/2x", 2, "the count behind the x must be a whole number from 1 to 99, as in 1/4x3"},
		{"1x0", "1x0", 1, "whole number from 1 to 99"},
		{"1 1/2x100", "1/2x100", 2, "whole number from 1 to 99"},
		{"1x3x3", "1x3x3", 1, "whole number from 1 to 99"},
		{"1/4 x3", "x3", 2, "write the count right behind its speed, 1/4x3"},
		{"1 0,5s", "0", 2, "decimals take a point"},
		{"1 quick", "quick", 2, "write it as on the dial"},
		{strings.Repeat("1 ", 64) + "1/2", "1/2", 65, "more than 64 settings"},
		{" , ", "", 0, "no speed told"},
	} {
		_, err := ParseSteps(c.list)
		var e *NotationError
		if !errors.As(err, &e) || e.Word != c.word || e.Position != c.position || !strings.Contains(err.Error(), c.say) {
			t.Errorf("ParseSteps(%q) says %v (%+v), want word %q at %d and %q", c.list, err, e, c.word, c.position, c.say)
		}
	}
}

func TestSettingsAreReadBackAsTheyAreWritten(t *testing.T) {
	word := rapid.OneOf(
		rapid.SampledFrom([]string{"1", "1/2", "1/5", "1/15", "1/25", "1/250", "1/500", "2s", "4s", "0.5s", "0.004s"}),
		rapid.StringMatching(`1/[1-9][0-9]{0,3}`), rapid.StringMatching(`[1-5]?[0-9]\.[0-9]{1,3}[1-9]s`))
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) string {
			return word.Draw(t, "speed") + rapid.StringMatching(`(x[1-9][0-9]?)?`).Draw(t, "count")
		}), 1, 64).Draw(t, "words")
		steps, err := ParseSteps(strings.Join(words, " "))
		if err != nil {
			t.Fatalf("ParseSteps(%q): %v", words, err)
		}
		again, err := ParseSteps(FormatSteps(steps))
		if err != nil || !slices.Equal(again, steps) {
			t.Fatalf("%v reads back as %v, %v", steps, again, err)
		}
	})
}

func FuzzParseMark(f *testing.F) {
	for _, s := range []string{"1", "1/30", "30", "2s", "0.5s", "½", "1⁄4", "", "1/", "s", "0.0.5s", "1/1s", "99999999999999999999s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, word string) {
		m, err := ParseMark(word)
		if err != nil {
			if m != (Mark{}) || !errors.Is(err, ErrNotation) {
				t.Fatalf("ParseMark(%q) = %v, %v", word, m, err)
			}
			return
		}
		if m.Nominal < 1.0/10240 || m.Nominal > 60 {
			t.Fatalf("ParseMark(%q) = %v, out of its range", word, m)
		}
		if again, err := ParseMark(m.Label); err != nil || again != m {
			t.Fatalf("ParseMark(%q) = %v, whose label reads %v, %v", word, m, again, err)
		}
	})
}

func FuzzParseSteps(f *testing.F) {
	for _, s := range []string{"1x3 1/2x3 1/4x5", "30,60;125", "1x3x3", "x", "1/25 1/250", "0.004s 1/25 1/250", " ", strings.Repeat("1 ", 70)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, list string) {
		steps, err := ParseSteps(list)
		if err != nil {
			if steps != nil || !errors.Is(err, ErrNotation) {
				t.Fatalf("ParseSteps(%q) = %v, %v", list, steps, err)
			}
			return
		}
		if again, err := ParseSteps(FormatSteps(steps)); err != nil || !slices.Equal(again, steps) {
			t.Fatalf("ParseSteps(%q) = %v, which reads back as %v, %v", list, steps, again, err)
		}
	})
}
