package settings

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"earshot/report"
)

func TestObservationsAreReadOrRefused(t *testing.T) {
	seen, by, err := ReadObserved(strings.NewReader("by = \"R. Marrable\"\nglass = \"clean\"\nfast_speeds = \"all seen to open\"\nbody = \" \"\n"))
	want := []report.Observation{{What: "fast speeds", Seen: "all seen to open"}, {What: "glass", Seen: "clean"}}
	if err != nil || by != "R. Marrable" || fmt.Sprint(seen) != fmt.Sprint(want) {
		t.Errorf("ReadObserved = %v, %q, %v; want %v", seen, by, err, want)
	}
	for name, c := range map[string]struct{ file, want string }{
		"a name that is not known": {"lens = \"x\"", `"lens" is not known; known are by, fast_speeds, flash_contact`},
		"a number":                 {"glass = 3", "words in quotes"},
		"no TOML":                  {"\nglass: clean", "line 2"},
		"a table":                  {"[glass]\nfront = \"clean\"", "words in quotes"},
	} {
		if _, _, err := ReadObserved(strings.NewReader(c.file)); !errors.Is(err, ErrObserved) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, c.want)
		}
	}
}

func FuzzReadObserved(f *testing.F) {
	f.Add("by = \"R. Marrable\"\nglass = \"clean\"")
	f.Fuzz(func(t *testing.T, file string) {
		seen, _, err := ReadObserved(strings.NewReader(file))
		if err != nil && !errors.Is(err, ErrObserved) {
			t.Errorf("error %v is not ErrObserved", err)
		}
		for _, o := range seen {
			if strings.TrimSpace(o.Seen) == "" {
				t.Error("nothing seen is listed")
			}
		}
	})
}

// A file in TOML may hold, in few bytes, what takes much memory.
func TestObservationsThatUnfoldInMemoryAreRefused(t *testing.T) {
	const deep = 500_000
	for _, file := range []string{strings.Repeat("a.", deep) + "a = 1", "glass = " + strings.Repeat("[", deep) + strings.Repeat("]", deep), strings.Repeat("a.", deep/50) + "a = 1"} {
		if _, _, err := ReadObserved(strings.NewReader(file)); !errors.Is(err, ErrObserved) {
			t.Errorf("%.20s...: %.100v", file, err)
		}
	}
}
