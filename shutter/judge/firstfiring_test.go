package judge

import (
	"math"
	"testing"

	"earshot/shutter"
)

func TestTheFirstFiringIsHeldAgainstTheLaterOnesAtItsSpeed(t *testing.T) {
	one, half := shutter.Mark{Label: "1", Nominal: 1}, shutter.Mark{Label: "1/2", Nominal: 0.5}
	at := func(m shutter.Mark, stops float64, clip int) JudgedFiring {
		return JudgedFiring{Firing: shutter.Firing{Clip: clip, Closed: true}, Mark: &m, Deviation: stops, Judged: true}
	}
	out := func(f JudgedFiring) JudgedFiring {
		f.Judged = false
		return f
	}
	for _, c := range []struct {
		name    string
		firings []JudgedFiring
		told    bool
		want    FirstFiring
	}{
		{"slower than the middle of two", []JudgedFiring{at(one, 0.5, 0), at(one, 0.1, 0), at(one, 0.2, 0), at(half, 3, 0)}, true, FirstFiring{Later: []int{1, 2}, Known: true, Slower: 0.35, Spread: 0.1}},
		{"faster than the one later", []JudgedFiring{at(one, -0.25, 0), at(one, 0, 0)}, true, FirstFiring{Later: []int{1}, Known: true, Slower: -0.25}},
		{"those that do not count are left aside", []JudgedFiring{at(one, 0.5, 0), out(at(one, 2, 0)), at(one, 0.25, 0)}, true, FirstFiring{Later: []int{2}, Known: true, Slower: 0.25}},
		{"alone at its speed", []JudgedFiring{at(one, 0.5, 0), at(half, 0, 0)}, true, FirstFiring{Later: []int{}}},
		{"not counted itself", []JudgedFiring{out(at(one, 0.5, 0)), at(one, 0, 0)}, true, FirstFiring{Later: []int{1}}},
		{"at no speed", []JudgedFiring{{}, at(one, 0, 0)}, true, FirstFiring{Later: []int{}}},
		{"of two clips none is known to be the first", []JudgedFiring{at(one, 0.5, 0), at(one, 0, 1)}, false, FirstFiring{}},
		{"nothing heard", nil, false, FirstFiring{}},
	} {
		got, ok := Check{Firings: c.firings}.FirstFiring()
		same := len(got.Later) == len(c.want.Later) && got.Known == c.want.Known && math.Abs(got.Slower-c.want.Slower) < 1e-12 && math.Abs(got.Spread-c.want.Spread) < 1e-12
		for i := range min(len(got.Later), len(c.want.Later)) {
			same = same && got.Later[i] == c.want.Later[i]
		}
		if ok != c.told || !same {
			t.Errorf("%s: %+v, %v; want %+v", c.name, got, ok, c.want)
		}
	}
}
