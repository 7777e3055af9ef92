package shutter

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"earshot/dsp"
)

// kind is a movement as it sounds: it is loudest in one band, and falls off about it.
type kind int

const (
	anOpening kind = 3
	aClosing  kind = 9
	aMirror   kind = 6
)

// strike is a sound of a kind, 40 dB over what was before it, that differs from the
// others of its kind by a decibel or so.
func strike(rng *rand.Rand, at float64, k kind) sound {
	s := sound{at: at, level: -20 + rng.NormFloat64(), rise: 40, stand: 40, decay: 20, spectrum: new(dsp.Spectrum)}
	for b := range dsp.NumBands {
		s.spectrum.Bands[b] = float32(s.level - 3*math.Abs(float64(b)-float64(k)) + rng.NormFloat64())
		s.spectrum.Noise[b] = -90
	}
	return s
}

// struck is a room with the sounds in time order, and the firings of those that open
// and close a shutter, in time order too.
func struck(sounds []sound, firings [][2]float64) (*room, []pair) {
	slices.SortFunc(sounds, func(a, b sound) int { return cmp.Compare(a.at, b.at) })
	at := func(t float64) int {
		return slices.IndexFunc(sounds, func(s sound) bool { return s.at == t })
	}
	var set []pair
	for _, f := range firings {
		set = append(set, pair{open: at(f[0]), close: at(f[1]), span: f[1] - f[0]})
	}
	return &room{sounds: sounds}, set
}

// fired are n firings 3 s apart, each with what comes the given times before its opening.
func fired(rng *rand.Rand, n int, before func(i int) []sound) (sounds []sound, firings [][2]float64) {
	for i := range n {
		open := 3*float64(i+1) + 0.3*rng.Float64()
		sounds = append(sounds, strike(rng, open, anOpening), strike(rng, open+0.25, aClosing))
		firings = append(firings, [2]float64{open, open + 0.25})
		for _, s := range before(i) {
			s.at += open
			sounds = append(sounds, s)
		}
	}
	return sounds, firings
}

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
		{"half of the releases only", 6, func(i int) []sound {
			if i%2 == 0 {
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
			faint[0].stand = 5
			return faint
		}, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, set := struck(fired(rng, tt.n, tt.before))
			v := r.voice(set)
			if math.Abs(v.lead-tt.want) > 0.002 {
				t.Fatalf("lead = %.1f ms, want %.1f", 1000*v.lead, 1000*tt.want)
			}
			if tt.want == 0 {
				return
			}
			released := 0
			for _, p := range set {
				if i, w := v.release(p.open); w > 0 {
					released++
					if got := r.sounds[p.open].at - r.sounds[i].at; math.Abs(got-lead) > 0.006 {
						t.Errorf("released %.1f ms before it opened, want %.1f", 1000*got, 1000*lead)
					}
				}
			}
			if released < tt.n-1 {
				t.Errorf("%d of %d firings were released", released, tt.n)
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
		if v := r.voice(set); v.lead != 0 {
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
		{"another sound in time", []sound{strike(rng, -0.08, aMirror)}, 0.08},
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
			i, w := r.voice(set).release(last)
			if (w > 0) != (tt.want > 0) {
				t.Fatalf("evidence of a release %.2f", w)
			}
			if got := open - r.sounds[i].at; w > 0 && math.Abs(got-tt.want) > 1e-9 {
				t.Errorf("released %.3f s before, want %.3f", got, tt.want)
			}
		})
	}
}
