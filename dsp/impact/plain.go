package impact

import (
	"earshot/dsp/internal/num"
	"earshot/dsp/known"
)

// findNoise finds the level of the noise that the plan's SNR asks for, and notes the SNR.
func (s *scene) findNoise(p *plan, x []float64) {
	var levels []float64
	for _, e := range s.ends() {
		levels = append(levels, s.levelOf(x, e))
	}
	for _, at := range s.marked {
		levels = append(levels, loudest(x, s.rate, at, at+over))
	}
	s.floor = num.Median(levels) - p.snr
	if len(levels) == 0 {
		s.floor = decibels(rms(x)) - p.snr
	}
	s.truth.SNR = p.snr
}

// ends returns the strokes of the told shutter that lie in the clip.
func (s *scene) ends() []known.Stroke {
	var ends []known.Stroke
	for _, f := range s.truth.Firings {
		if f.Mark != "" && f.Open.Start >= 0 {
			ends = append(ends, f.Open)
		}
		if f.Mark != "" && f.Closes {
			ends = append(ends, f.Close)
		}
	}
	return ends
}

// levelOf returns the level of a stroke: its loudest 3 ms.
func (s *scene) levelOf(x []float64, k known.Stroke) float64 {
	return loudest(x, s.rate, k.Start, k.Stop+over)
}

// judge leaves plain only firings at 1/60 or slower whose ends come one after the other, and
// stand out from the noise and from what else sounds.
func (s *scene) judge(p *plan, x []float64) {
	for i := range s.truth.Firings {
		f := &s.truth.Firings[i]
		f.Plain = f.Plain && f.Mark != "" && f.Nominal > 1/65.0 && f.Closes && f.Open.Start >= 0 &&
			f.Close.Start > f.Open.Stop+0.002 && p.snr >= 18 && s.standsOut(x, f.Open) && s.standsOut(x, f.Close)
	}
}

// standsOut is true for a stroke 12 dB over the noise that nothing covers.
func (s *scene) standsOut(x []float64, k known.Stroke) bool {
	if s.levelOf(x, k) < s.floor+12 {
		return false
	}
	own := loudest(s.tracks[shutters], s.rate, k.Start, k.Stop+over)
	for on := table; on < places; on++ {
		if loudest(s.tracks[on], s.rate, k.Start-2*over, k.Stop+2*over) > own-10 {
			return false
		}
	}
	return true
}

// survive leaves plain only firings whose ends the phone has kept: 6 dB over what is heard
// just before them.
func (tk *take) survive() {
	for i := range tk.truth.Firings {
		f := &tk.truth.Firings[i]
		f.Plain = f.Plain && tk.kept(f.Open) && tk.kept(f.Close)
	}
}

// kept is true for a stroke that rises out of what came before.
func (tk *take) kept(k known.Stroke) bool {
	level := loudest(tk.x, tk.rate, k.Start, k.Stop+over)
	before := level
	n := int(over * tk.rate)
	for back := 2; back <= 8; back++ {
		at := int(k.Start*tk.rate) - back*n
		before = min(before, above1kHz(tk.x, tk.rate, at, n))
	}
	return level > -90 && level > before+6
}
