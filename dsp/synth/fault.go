package synth

import (
	"math"
	"slices"
)

// plan is what one firing is going to do.
type plan struct {
	setting  int
	duration float64 // s
	stall    float64 // s of it that the escapement stands still
	weakness float64 // dB of one movement
	late     bool    // the weak movement is the closing
	reopens  float64 // s after closing at which the blades bounce open; 0: not
	waits    float64 // s waited beyond the nominal time for a closing that never comes
	symptoms []Symptom
}

// plans decides the firings of the settings, in order.
func (s *Shutter) plans(d dice, settings []Setting) []plan {
	var all []plan
	total := 0
	for _, set := range settings {
		total += set.Count
	}
	for i, set := range settings {
		step := s.Deviation + s.Uneven*d.normal()
		for j := range set.Count {
			stops := step + s.stops(d, set, turn{j, len(all), total})
			all = append(all, plan{setting: i, duration: set.Nominal * math.Exp2(stops)})
		}
		s.mark(d, set, all[len(all)-set.Count:])
	}
	return all
}

// turn is the place of a firing: in its setting, in the clip, of how many.
type turn struct{ inSetting, inClip, total int }

// stops is by how much a firing deviates from its speed's usual time: the faults
// that every firing shows, and chance.
func (s *Shutter) stops(d dice, set Setting, t turn) float64 {
	scatter, stops := s.Scatter, 0.0
	for _, f := range s.Faults {
		if !s.concerns(f, set) {
			continue
		}
		switch f.Symptom {
		case Erratic:
			scatter = math.Hypot(scatter, f.Grade)
		case SlowEscapement, UnevenSteps:
			stops += f.Grade
		case NeedsExercise:
			stops += f.Grade * freed(t)
		}
	}
	return stops + scatter*d.normal()
}

// freed is how much of its slowness a shutter has kept: it frees up over the firings
// of one speed, and the more, the more it has been fired at all.
func freed(t turn) float64 {
	here := math.Exp(-float64(t.inSetting) / 2.5)
	whole := math.Exp(-float64(t.inClip) / float64(t.total))
	return here * whole
}

// concerns says whether a fault touches a setting. Faults of the escapement need one.
func (s *Shutter) concerns(f Fault, set Setting) bool {
	if (f.Symptom == SlowEscapement || f.Symptom == Hesitates) && !s.buzzes(set.Nominal) {
		return false
	}
	return len(f.Marks) == 0 || slices.Contains(f.Marks, set.Label)
}

// mark gives the faults that come and go to their share of one setting's firings.
func (s *Shutter) mark(d dice, set Setting, firings []plan) {
	for _, f := range s.Faults {
		n := int(math.Round(f.Share * float64(len(firings))))
		if f.Share <= 0 || len(firings) == 0 || !s.concerns(f, set) {
			continue
		}
		for _, i := range d.Perm(len(firings))[:max(1, min(n, len(firings)))] {
			firings[i].suffer(d, f)
		}
	}
}

// suffer gives one firing a fault. A firing that hangs shows nothing else.
func (p *plan) suffer(d dice, f Fault) {
	if slices.Contains(p.symptoms, HangsOpen) {
		return
	}
	switch f.Symptom {
	case HangsOpen:
		*p = plan{setting: p.setting, duration: p.duration, waits: f.Grade}
		if p.waits == 0 {
			p.waits = d.between(3.5, 5)
		}
	case ClosesEarly:
		p.duration *= math.Exp2(-f.Grade)
	case Hesitates:
		p.stall = f.Grade
		p.duration += f.Grade
	case LazyBlades:
		p.weakness, p.late = f.Grade, d.chance(0.5)
	case BouncesOpen:
		p.reopens = f.Grade
	default:
		return
	}
	p.symptoms = append(p.symptoms, f.Symptom)
}
