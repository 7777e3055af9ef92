package scene

import (
	"cmp"
	"math"
	"slices"

	"earshot/dsp"
)

// Times in ms, which is what a value of the levels lasts, near enough.
const (
	together  = 8  // parts of one sound begin within
	mostOften = 12 // sounds a second that are looked at
)

// Spectral is a sudden sound whose spectrum is known.
type Spectral struct {
	At       float64 // onset, s
	Level    float64 // dBFS
	Spectrum *dsp.Spectrum
}

// sound is one sudden sound. Times are indices of levels.
type sound struct {
	first    int // where its first part begins
	at       int // where its loudest part begins
	prom     [dsp.NumEars]float64
	level    [dsp.NumEars]float64
	best     float64       // the largest prominence, dB
	loud     float64       // level in the widest ear, dBFS
	quick    float64       // dB risen within 2 ms at the loudest part, the mean of the ears
	spectral *Spectral     // nil where no spectrum is known
	like     *dsp.Spectrum // that spectrum at a mean of 0 dB; nil as above
}

// sounds finds the sudden sounds of the clip.
func (v *view) sounds() []sound {
	rises := v.rises()
	var all []sound
	for i := 0; i < len(rises); {
		j := i + 1
		for j < len(rises) && rises[j]-rises[i] < together && !v.apart(rises[i], rises[j]) {
			j++
		}
		all = append(all, v.sound(rises[i]))
		i = j
	}
	return thin(all, int(1000/v.ms))
}

// rises are the times at which the level begins to rise out of what came before in any ear.
func (v *view) rises() (at []int) {
	rising := false
	for t := range v.n {
		rises := false
		for e := range v.level {
			up := max(v.level[e][t], v.level[e][min(t+1, v.n-1)])
			if up > v.ref[e][t]+2*least && !v.deaf[e] && float64(v.db[up]) > v.floorAt(e, t)+audible+least {
				rises = true
				break
			}
		}
		if rises && !rising {
			at = append(at, t)
		}
		rising = rises
	}
	return at
}

// apart tells whether what begins at u is more than another part of what began at t: it
// comes late for that, and is much louder.
func (v *view) apart(t, u int) bool {
	const late, louder = 6, 10 // ms, dB
	return u-t >= late && v.max(0, u, u+3) > v.max(0, t, u)+louder
}

// sound describes the sound whose first part begins at t.
func (v *view) sound(t int) sound {
	s := sound{first: t, at: t}
	ears := 0.0
	for e := range v.level {
		if v.deaf[e] {
			continue
		}
		s.level[e] = v.max(e, t, t+together)
		s.prom[e] = math.Max(0, s.level[e]-v.before(e, t))
		s.best = math.Max(s.best, s.prom[e])
		ears++
	}
	s.loud = s.level[0]
	most := 0.0
	for u := t; u < min(t+together, v.n); u++ {
		if rise := v.risen(&s, u); rise > most {
			most, s.at = rise, u
		}
	}
	s.quick = most / math.Max(1, ears)
	return s
}

// risen is by how many dB the level rises at u to something near the loudest of the sound,
// summed over the ears.
func (v *view) risen(s *sound, u int) (sum float64) {
	const near = 10 // dB
	for e := range v.level {
		if v.deaf[e] {
			continue
		}
		if up := v.max(e, u, u+2); up > s.level[e]-near {
			sum += math.Max(0, math.Min(up-v.max(e, u-3, u), up-v.floorAt(e, u)-audible))
		}
	}
	return sum
}

// attach gives each sound the loudest of the spectra that are of its parts.
func (v *view) attach(all []sound, spectra []Spectral) {
	const early, late = 3, together // ms before the first part, and after
	k := 0
	for i := range all {
		s := &all[i]
		ms := func(k int) float64 { return 1000 * spectra[k].At }
		from, to := float64(s.first)*v.ms-early, float64(s.first)*v.ms+late
		for k < len(spectra) && ms(k) < from {
			k++
		}
		for q := k; q < len(spectra) && ms(q) < to; q++ {
			if s.spectral == nil || spectra[q].Level > s.spectral.Level {
				s.spectral = &spectra[q]
			}
		}
		if s.spectral != nil {
			s.like = levelled(s.spectral.Spectrum)
		}
	}
}

// thin leaves of each second the most prominent sounds.
func thin(all []sound, second int) (kept []sound) {
	for i := 0; i < len(all); {
		j := i
		for j < len(all) && all[j].first/second == all[i].first/second {
			j++
		}
		some := all[i:j]
		if len(some) > mostOften {
			slices.SortFunc(some, func(a, b sound) int { return cmp.Compare(b.best, a.best) })
			some = some[:mostOften]
			slices.SortFunc(some, func(a, b sound) int { return cmp.Compare(a.first, b.first) })
		}
		kept = append(kept, some...)
		i = j
	}
	return kept
}
