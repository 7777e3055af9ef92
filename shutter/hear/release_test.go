package hear

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestALeadIsFoundWhereOpeningsFollowAReleaseByTheSameTime(t *testing.T) {
	const lead = 0.082
	rng := rand.New(rand.NewPCG(81, 82))
	by := func(scatter float64, kinds ...kind) func(int) []sound {
		return func(int) (all []sound) {
			for k, of := range kinds {
				all = append(all, strike(rng, -lead-0.02*float64(k)+scatter*rng.NormFloat64(), of))
			}
			return all
		}
	}
	tests := []struct {
		name   string
		n      int
		before func(i int) []sound
		want   float64
	}{
		{"the blades close on each release", 6, by(0.001, aClosing), lead},
		{"what the mirror does drowns them", 6, by(0.001, aMirror), lead},
		{"the mirror comes first: what is like the closings counts", 6, by(0.001, aClosing, aMirror), lead},
		{"other sounds come between", 6, func(i int) []sound {
			return append(by(0.001, aClosing)(i), strike(rng, -0.045-0.03*rng.Float64(), aMirror))
		}, lead},
		{"one release of six was not heard", 6, func(i int) []sound {
			if i == 2 {
				return nil
			}
			return by(0.001, aClosing)(i)
		}, lead},
		{"two openings with a closing before each", 2, by(0.0005, aClosing), lead},
		{"two with something else before each", 2, by(0.0005, aMirror), 0},
		{"a closing before every other, as the view reopens between", 6, func(i int) []sound {
			if i%2 == 0 {
				return nil
			}
			return by(0.001, aClosing)(i)
		}, lead},
		{"something else before every other", 6, func(i int) []sound {
			if i%2 == 0 {
				return nil
			}
			return by(0.001, aMirror)(i)
		}, 0},
		{"a closing before two of six", 6, func(i int) []sound {
			if i%3 > 0 {
				return nil
			}
			return by(0.001, aClosing)(i)
		}, 0},
		{"what comes before scatters by 20 ms", 6, by(0.02, aMirror), 0},
		{"a shutter that is no reflex's", 6, func(int) []sound { return nil }, 0},
		{"sounds 25 dB weaker than the openings", 6, func(i int) []sound {
			weak := by(0.001, aMirror)(i)
			weak[0].level -= 25
			return weak
		}, 0},
		{"sounds that stand out of nothing", 6, func(i int) []sound {
			faint := by(0.001, aMirror)(i)
			faint[0].prominence = 5
			return faint
		}, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := struck(fired(rng, tt.n, tt.before))
			m := r.modelOf(set)
			if math.Abs(m.releaseLead-tt.want) > 0.002 {
				t.Fatalf("lead = %.1f ms, want %.1f", 1000*m.releaseLead, 1000*tt.want)
			}
			if tt.want == 0 {
				return
			}
			released := 0
			for _, p := range set {
				if i, w := m.release(p.open); w > 0 {
					released++
					if got := r.sounds[p.open].at - r.sounds[i].at; math.Abs(got-lead) > 0.006 {
						t.Errorf("released %.1f ms before it opened, want %.1f", 1000*got, 1000*lead)
					}
				}
			}
			if heard := min(tt.n-1, len(r.sounds)-2*tt.n); released < heard {
				t.Errorf("%d of %d firings were released, want %d", released, tt.n, heard)
			}
		})
	}
}

// Sounds that come evenly by chance come before few openings by the same time: of
// 200 clips with six firings and four sounds a second, hardly one shows a lead.
func TestSoundsByChanceMakeNoLead(t *testing.T) {
	led := 0
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 83))
		sounds, firings := fired(rng, 6, func(int) []sound { return nil })
		for range 84 {
			sounds = append(sounds, strike(rng, 21*rng.Float64(), aMirror))
		}
		r, set := struck(sounds, firings)
		if m := r.modelOf(set); m.releaseLead != 0 {
			led++
		}
	}
	if led > 4 {
		t.Errorf("a lead in %d of 200 clips, want 2 in 100 at most", led)
	}
}

func TestAReleaseIsToldByWhenItCameAndWhatItSoundedLike(t *testing.T) {
	rng := rand.New(rand.NewPCG(84, 85))
	sounds, firings := fired(rng, 6, func(int) []sound { return []sound{strike(rng, -0.08, aClosing)} })
	tests := []struct {
		name   string
		before []sound // of one more opening
		want   float64 // how long before it the release came, s; 0 for none
	}{
		{"a closing in time", []sound{strike(rng, -0.08, aClosing)}, 0.08},
		{"another sound in time, unlike the other releases", []sound{strike(rng, -0.08, aMirror)}, 0},
		{"the closing of two, either in time", []sound{strike(rng, -0.082, aMirror), strike(rng, -0.078, aClosing)}, 0.078},
		{"a sound 20 ms early", []sound{strike(rng, -0.1, aMirror)}, 0},
		{"a closing 40 ms early", []sound{strike(rng, -0.12, aClosing)}, 0},
		{"none", nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const open = 30.0
			all := append(slices.Clone(sounds), strike(rng, open, anOpening))
			for _, s := range tt.before {
				s.at += open
				all = append(all, s)
			}
			r, set := struck(all, firings)
			last := len(r.sounds) - 1
			i, w := r.modelOf(set).release(last)
			if (w > 0) != (tt.want > 0) {
				t.Fatalf("evidence of a release %.2f", w)
			}
			if got := open - r.sounds[i].at; w > 0 && math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("released %.3f s before, want %.3f", got, tt.want)
			}
		})
	}
}

// What a reflex does on its release drowns the opening and sets sounds before it: that
// is held against a pair that no release explains, and against no other.
func TestWhatAReleaseExplainsIsNotHeldAgainstAnOpening(t *testing.T) {
	const held = 3.0
	rng := rand.New(rand.NewPCG(86, 87))
	sounds, firings := fired(rng, 6, func(int) []sound { return []sound{strike(rng, -0.08, aClosing)} })
	tests := []struct {
		name   string
		before []sound
		want   bool
	}{
		{"after its release", []sound{strike(rng, -0.08, aClosing)}, true},
		{"with a flap after its release", []sound{strike(rng, -0.08, aClosing), strike(rng, -0.02, aMirror)}, true},
		{"of the view, as it is wound", nil, false},
		{"amid clicks, one of them in time", []sound{strike(rng, -0.08, aMirror), strike(rng, -0.04, aMirror)}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const open = 30.0
			all := append(slices.Clone(sounds), strike(rng, open, anOpening), strike(rng, open+0.25, aClosing))
			for _, s := range tt.before {
				s.at += open
				all = append(all, s)
			}
			r, set := struck(all, append(slices.Clone(firings), [2]float64{open, open + 0.25}))
			m := r.modelOf(set[:len(set)-1])
			p := set[len(set)-1]
			clear := m.likeness(&p)
			p.before = -held
			if excused := m.likeness(&p)-clear > held/2; excused != tt.want {
				t.Errorf("held against it: %v, want %v", !excused, !tt.want)
			}
			if (clear > 0) != tt.want {
				t.Errorf("likeness %.1f, a firing's: want %v", clear, tt.want)
			}
		})
	}
}

// A release comes out of silence: what is as loud as an opening and comes before all that
// the release may have set off speaks against it.
func TestAReleaseComesOutOfSilence(t *testing.T) {
	rng := rand.New(rand.NewPCG(88, 89))
	weak := strike(rng, -0.2, aMirror)
	weak.level -= 25
	tests := []struct {
		name   string
		before []sound
		want   bool
	}{
		{"nothing else", nil, true},
		{"a key struck 0.2 s before the opening", []sound{strike(rng, -0.2, aMirror)}, false},
		{"one 25 dB weaker", []sound{weak}, true},
		{"the mirror, within what a release may last", []sound{strike(rng, -0.12, aMirror)}, true},
		{"the end of winding, half a second before", []sound{strike(rng, -0.5, aMirror)}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := struck(fired(rng, 6, func(i int) []sound {
				release := []sound{strike(rng, -0.08, aClosing)}
				if i == 3 {
					release = append(release, tt.before...)
				}
				return release
			}))
			if m := r.modelOf(set); m.unready(set[3].open) == tt.want || m.unready(set[2].open) {
				t.Errorf("out of silence %v, want %v; the one before %v", !m.unready(set[3].open), tt.want, !m.unready(set[2].open))
			}
		})
	}
}
