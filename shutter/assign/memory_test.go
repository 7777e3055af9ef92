package assign

import (
	"runtime"
	"testing"

	"earshot/shutter"
)

// A list as long as may be told, against three hundred firings that all could be at any of
// it: the cells of the chain that are given up at once were kept, 200 MB of them.
func TestALongListOfSettingsTakesLittleMemory(t *testing.T) {
	const most = 256 << 20 // bytes allocated in all
	steps, err := shutter.ParseSteps(longList())
	if err != nil {
		t.Fatal(err)
	}
	var firings []shutter.Firing
	for i := range 324 {
		open := 0.3 * float64(i)
		firings = append(firings, shutter.Firing{Open: open, Close: open + 0.0625, Closed: true, U: 2e-5})
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	Lay(firings, steps)
	runtime.ReadMemStats(&after)
	used := after.TotalAlloc - before.TotalAlloc
	t.Log(used >> 20)
	if used > most {
		t.Errorf("%d MB allocated, want at most %d", used>>20, most>>20)
	}
}

// longList is 64 settings of 99 firings each.
func longList() string {
	list := ""
	for range 8 {
		list += "1x99 1/2x99 1/4x99 1/8x99 1/15x99 1/30x99 1/60x99 1/125x99 "
	}
	return list
}
