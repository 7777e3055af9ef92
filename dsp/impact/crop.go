package impact

import "earshot/dsp/known"

// cropped cuts the clip so that it starts within the first firing and ends within the last.
func (s *scene) cropped() {
	f := s.truth.Firings
	if len(f) < 3 {
		return
	}
	s.endWithin(&f[len(f)-1])
	s.startWithin(&f[0])
}

// endWithin ends the clip while a firing lasts.
func (s *scene) endWithin(f *known.Firing) {
	if !f.Closes {
		return
	}
	end := f.Open.Stop + (f.Close.Start-f.Open.Stop)*s.in(0.2, 0.9)
	f.Close, f.Closes, f.Plain = known.Stroke{}, false, false
	n := int(end * s.rate)
	for i, t := range s.tracks {
		s.tracks[i] = t[:min(n, len(t))]
	}
	var kept []known.Other
	for _, o := range s.truth.Others {
		if o.Start < end {
			o.End = min(o.End, end)
			kept = append(kept, o)
		}
	}
	s.truth.Others = kept
}

// startWithin starts the clip while a firing lasts.
func (s *scene) startWithin(f *known.Firing) {
	if !f.Closes {
		return
	}
	n := int((f.Open.Stop + (f.Close.Start-f.Open.Stop)*s.in(0.2, 0.9)) * s.rate)
	f.Plain = false
	for i, t := range s.tracks {
		s.tracks[i] = t[min(n, len(t)):]
	}
	start := float64(n) / s.rate
	s.retime(func(t float64) float64 { return t - start })
	var kept []known.Other
	for _, o := range s.truth.Others {
		if o.End > 0 {
			o.Start = max(o.Start, 0)
			kept = append(kept, o)
		}
	}
	s.truth.Others = kept
}

// retime moves every time of the truth.
func (s *scene) retime(to func(float64) float64) { retime(&s.truth, to) }

func retime(truth *known.Truth, to func(float64) float64) {
	for i := range truth.Firings {
		f := &truth.Firings[i]
		f.Open = known.Stroke{Start: to(f.Open.Start), Stop: to(f.Open.Stop)}
		if f.Closes {
			f.Close = known.Stroke{Start: to(f.Close.Start), Stop: to(f.Close.Stop)}
		}
	}
	for i := range truth.Others {
		o := &truth.Others[i]
		o.Start, o.End = to(o.Start), to(o.End)
	}
}
