package report_test

import (
	"bytes"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/write"
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
				if err := errors.Join(write.Text(&b, d), write.CSV(&b, d), write.JSON(&b, d)); err != nil {
					t.Errorf("%s: %v", x, err)
				}
			}
		}
	}
}
