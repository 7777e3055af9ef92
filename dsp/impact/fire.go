package impact

import (
	"math"

	"earshot/dsp/known"
)

// fate is what becomes of one firing.
type fate struct {
	lasts    float64 // s from opening to closing
	slower   float64 // factor on the beats
	opens    float64 // speed of the opening against the usual
	closes   float64 // and of the closing
	rest     pause   // of the buzz, s from the opening
	hangs    bool    // until it is freed, or for good
	stops    float64 // the buzz of one that hangs stops after so many s
	freed    bool
	reopens  float64 // s after the closing; 0 for never
	symptoms []string
}

// fault changes the fate of a firing: that is the nth of all, and of its mark the mth.
type fault func(d dice, f *fate, nominal float64, nth, mth int)

// fated draws what becomes of a firing at a nominal time.
func (sh *shutter) fated(d dice, nominal float64, nth, mth int) fate {
	f := fate{slower: 1, opens: 1, closes: 1}
	stops := sh.off + sh.spread*d.NormFloat64()
	f.lasts = nominal * math.Exp2(stops)
	if sh.fault != nil {
		sh.fault(d, &f, nominal, nth, mth)
	}
	f.lasts = max(f.lasts, 0.006)
	return f
}

// expose opens and closes the shutter from a true time on, and returns the firing and the
// true time at which it is over.
func (s *scene) expose(sh *shutter, at, nominal float64, f fate) (known.Firing, float64) {
	fired := known.Firing{Nominal: nominal, Symptoms: f.symptoms, Plain: true}
	opened, stop := s.move(sh, sh.opening, at, f.opens)
	fired.Open = opened
	close := at + f.lasts
	if f.hangs {
		fired.Beats = s.buzz(sh, nominal, stop, at+f.stops, f.slower, pause{})
		if !f.freed {
			fired.Plain = false
			return fired, max(stop, at+f.stops)
		}
		s.bump(close - s.in(0.05, 0.12))
	} else {
		rest := pause{at + f.rest.from, at + f.rest.to}
		fired.Beats = s.buzz(sh, nominal, stop, close, f.slower, rest)
	}
	closed, end := s.move(sh, sh.closing, close, f.closes)
	fired.Close, fired.Closes = closed, true
	if f.reopens > 0 {
		end = s.reopen(sh, end+f.reopens)
	}
	return fired, end
}

// reopen makes the blades bounce open and fall shut again.
func (s *scene) reopen(sh *shutter, at float64) float64 {
	again := sh.opening
	again.level, again.bounce = sh.closing.level-s.in(3, 12), 0
	_, end := s.move(sh, again, at, 1)
	again = sh.closing
	again.level -= s.in(2, 9)
	_, end = s.move(sh, again, end+s.in(0.003, 0.009), 1)
	return end
}
