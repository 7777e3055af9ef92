package settings_test

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"earshot/report/settings"
	"earshot/shutter/judge"
)

func TestAPolicyFileIsReadOverTheOneItIsLike(t *testing.T) {
	p, err := settings.ReadPolicy(strings.NewReader("# of the shop\nhouse = \"Marrable & Daughter\"\ngood_stops = 0.25\nedge_ms = 4 # big shutters\n"), "shop")
	if err != nil {
		t.Fatal(err)
	}
	want := judge.Standard()
	want.Name, want.House, want.Good, want.EdgeMS = "shop", "Marrable & Daughter", 0.25, 4
	if p != want {
		t.Errorf("ReadPolicy = %+v, want %+v", p, want)
	}
	p, err = settings.ReadPolicy(strings.NewReader("like = \"negative-film\"\nname = \"ours\""), "shop")
	want = judge.NegativeFilm()
	want.Name = "ours"
	if err != nil || p != want {
		t.Errorf("ReadPolicy = %+v, %v; want %+v", p, err, want)
	}
}

func TestWhatMakesNoPolicyIsRefusedWithItsLine(t *testing.T) {
	for name, c := range map[string]struct{ file, want string }{
		"a misspelt limit":           {"# limits\n\ngod_stops = 0.25\n", `line 3: no limit is called "god_stops"; known are name, house, like, good_stops`},
		"a limit in a table":         {"[limits]\ngood_stops = 0.25\n", `line 1: no limit is called "limits`},
		"a number in words":          {"name = \"x\"\ngood_stops = \"a third\"\n", "good_stops"},
		"a fraction":                 {"\ngood_stops = 1/3\n", "line 2"},
		"no TOML at all":             {"good: 0.3\n", "line 1"},
		"good beyond service":        {"good_stops = 0.6\n", "good reaches to 0.6 stop and service begins at 0.5"},
		"spreads the wrong way":      {"spread_good_stops = 0.5\n", "a good spread reaches to 0.5"},
		"a limit of nothing":         {"good_stops = 0\n", "good of 0"},
		"a limit that is no number":  {"service_stops = nan\n", "service of NaN"},
		"an edge of half a second":   {"edge_ms = 500\n", "edge of 500"},
		"like one that is not known": {"name = \"x\"\nlike = \"slides\"\n", `line 2: like: limits that make no policy: "slides" is not built in`},
		"a file without end":         {strings.Repeat("# nothing\n", 200000), "larger than 32 KB"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := settings.ReadPolicy(strings.NewReader(c.file), "shop")
			if !errors.Is(err, settings.ErrPolicy) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}

func FuzzReadPolicy(f *testing.F) {
	f.Add("house = \"Marrable & Daughter\"\ngood_stops = 0.25\nclock_error_ppm = -3.5")
	f.Add("like = \"negative-film\"\n[x]\ny = [1, {z = 2}]")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := settings.ReadPolicy(strings.NewReader(text), "x")
		if err == nil && p.Check() != nil {
			t.Errorf("limits that make no policy are taken: %+v", p)
		}
	})
}

// nested are files in TOML that took the reader a thousand times their size, or ended the
// program with its stack full.
func nested() map[string]string {
	const n = 500_000
	files := map[string]string{}
	for _, n := range []int{n, 10_000, 1000} {
		files[fmt.Sprint("lists in lists, ", n)] = "name = " + strings.Repeat("[", n) + strings.Repeat("]", n)
		files[fmt.Sprint("tables in tables, ", n)] = "name = " + strings.Repeat("{a=", n/3) + "1" + strings.Repeat("}", n/3)
		files[fmt.Sprint("a key of keys, ", n)] = strings.Repeat("a.", n) + "a = 1"
		files[fmt.Sprint("a heading of headings, ", n)] = "[" + strings.Repeat("a.", n) + "a]"
		files[fmt.Sprint("tables of a list, ", n)] = strings.Repeat("[[a]]\n", n/3)
		files[fmt.Sprint("lists over lines, ", n)] = "name = " + strings.Repeat("[\n", n) + strings.Repeat("]\n", n)
	}
	return files
}

func TestAPolicyThatUnfoldsInMemoryIsRefused(t *testing.T) {
	const most = 256 << 20 // bytes allocated in all
	for name, file := range nested() {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := settings.ReadPolicy(strings.NewReader(file), "house")
		runtime.ReadMemStats(&after)
		if used := after.TotalAlloc - before.TotalAlloc; used > most {
			t.Errorf("%s: %d MB allocated, want at most %d", name, used>>20, most>>20)
		}
		if !errors.Is(err, settings.ErrPolicy) {
			t.Errorf("%s: %.100v", name, err)
		}
	}
}
