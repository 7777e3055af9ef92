package report_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/words"
)

// bare is a record that holds nothing; lists go in place of its own.
func bare(lists string) string {
	return `{"schema": "earshot/1", "made": "2026-11-25T14:30:00Z", "policy": {"good_stops": 0.3, "service_stops": 0.5},
		"clips": [{}], "verdict": "not judged", ` + lists + `}`
}

func many(item string, bytes int) string {
	return item + strings.Repeat(","+item, bytes/(len(item)+1))
}

// A record from a stranger may hold, in few bytes, what takes much memory: 22 million
// empty firings in 64 MB took 12 GB.
func TestARecordThatUnfoldsInMemoryIsRefusedOrSmall(t *testing.T) {
	const most = 256 << 20 // bytes allocated in all, the rubbish included
	for _, c := range []struct{ name, record string }{
		{"empty firings, 64 MB of them", bare(`"firings": [` + many("{}", 64<<20) + `]`)},
		{"empty firings, 5 MB of them", bare(`"firings": [` + many("{}", 5<<20) + `]`)},
		{"a firing named two million times", bare(`"firings": [{}], "speeds": [{"marked": "1", "nominal_s": 1, "firings": [` + many("0", 5<<20) + `]}]`)},
		{"empty reasons, two million of them", bare(`"why": [` + many(`""`, 5<<20) + `]`)},
		{"lists in lists, ten thousand deep", bare(`"x": ` + strings.Repeat("[", 10001) + strings.Repeat("]", 10001))},
		{"lists in lists, three million deep", bare(`"x": ` + strings.Repeat("[", 3<<20) + strings.Repeat("]", 3<<20))},
		{"a name of 5 MB", bare(`"lens": {"name": "` + strings.Repeat("A", 5<<20) + `"}`)},
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := report.Read(strings.NewReader(c.record))
		runtime.ReadMemStats(&after)
		if used := after.TotalAlloc - before.TotalAlloc; used > most {
			t.Errorf("%s: %d MB allocated, want at most %d", c.name, used>>20, most>>20)
		}
		if err != nil && !errors.Is(err, report.ErrNotRecord) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Numbers that no clip gives are refused, or shown as they stand: they crash nothing.
func TestARecordWithImpossibleNumbersIsRefusedOrWritten(t *testing.T) {
	for _, x := range []string{"1e308", "-1e308", "5e-324", "-0", "1e999", "9223372036854775807"} {
		for _, index := range []string{"0", "-1", "1", "9223372036854775807"} {
			record := bare(fmt.Sprintf(`"firings": [{"clip": %[2]s, "open_s": %[1]s, "close_s": %[1]s, "duration_s": %[1]s, "u_s": %[1]s, "marked": "1", "nominal_s": %[1]s, "deviation_stops": %[1]s}],
				"speeds": [{"marked": "1", "nominal_s": 1, "n": 1, "firings": [%[2]s], "mean_s": %[1]s, "deviation_stops": %[1]s, "median_stops": %[1]s, "u95_stops": %[1]s, "spread_stops": %[1]s, "verdict": "good"}]`, x, index))
			d, err := report.Read(strings.NewReader(record))
			switch {
			case err != nil && !errors.Is(err, report.ErrDamaged):
				t.Errorf("%s, firing %s: %v", x, index, err)
			case err == nil && index != "0":
				t.Errorf("%s: firing %s was taken", x, index)
			case err == nil:
				var b bytes.Buffer
				if err := errors.Join(report.WriteText(&b, d), report.WriteCSV(&b, d), report.WriteJSON(&b, d)); err != nil {
					t.Errorf("%s: %v", x, err)
				}
			}
		}
	}
}

// hostile is a name that does harm where it is not escaped: it colours, clears and turns
// around a terminal's text, by the two forms of the escape; it is markup, and a formula.
const hostile = "=cmd|'/c calc'!A1\x1b[2J\u009b31m\u202eneddih\u2066</text></title><script>alert(1)</script>\x7f\x00\xff,\"\n+1"

// A program reads the same text from JSON as before; who prints the file on a terminal
// is safe from it.
func TestJSONIsSafeOnATerminal(t *testing.T) {
	d := document()
	d.Lens.Name = strings.ToValidUTF8(hostile, "\ufffd") + "\U000E0041ü"
	var b bytes.Buffer
	if err := report.WriteJSON(&b, d); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if shown := words.Printable(strings.ReplaceAll(text, "\n", "")); shown != strings.ReplaceAll(text, "\n", "") {
		t.Error("what is not printable stands in the JSON")
	}
	var back report.Document
	if err := json.Unmarshal(b.Bytes(), &back); err != nil || back.Lens.Name != d.Lens.Name {
		t.Errorf("%q reads back as %q, %v", d.Lens.Name, back.Lens.Name, err)
	}
	if !strings.Contains(text, "ü") {
		t.Error("a letter that is printable was escaped")
	}
}

// Spreadsheets of some languages take the wide forms of = + − and @ for a formula's
// start too, and some pass over space before it.
func TestCSVIsSafeWhereverAFormulaBegins(t *testing.T) {
	for _, name := range []string{"=1+1", "+1", "-1", "@SUM(1)", "＝1+1", "＋1", "－1", "＠SUM(1)", " =1+1", "\t=1+1", "\r=1+1", "\u00a0=1+1"} {
		d := document()
		d.Lens.Name = name
		var b bytes.Buffer
		if err := report.WriteCSV(&b, d); err != nil {
			t.Fatal(err)
		}
		row := strings.Split(b.String(), "\n")[1]
		if first := strings.TrimPrefix(row, `"`); !strings.HasPrefix(first, "'") && !strings.HasPrefix(first, `\`) {
			t.Errorf("%q is written as %s", name, row[:20])
		}
	}
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
		_, err := report.ReadPolicy(strings.NewReader(file), "house")
		runtime.ReadMemStats(&after)
		if used := after.TotalAlloc - before.TotalAlloc; used > most {
			t.Errorf("%s: %d MB allocated, want at most %d", name, used>>20, most>>20)
		}
		if !errors.Is(err, report.ErrPolicyFile) {
			t.Errorf("%s: %.100v", name, err)
		}
	}
}
