package collage

import "earshot/dsp/known"

// scene is what a kind of clip is about; what it leaves open is drawn.
type scene struct {
	kind        known.Kind
	older       bool    // series of marks
	first       int     // index of the slowest mark of the modern series
	least, most int     // firings at a mark
	off         float64 // most that the shutter is off alike at all speeds, stops
	big         bool    // blades that travel long
	silent      bool    // no buzz
	rangefinder bool    // no mirror
	winding     winding
	fault       func(t *take, shots []shot) (symptoms []string, healthy bool)
	before      func(t *take, b body, at float64) float64 // each firing; returns when that may be
	between     func(t *take, b body, at float64) float64 // two firings
	over        []func(t *take)                           // once all is on the tape
	phone       phone
	quiet, loud float64 // SNR, dB, from and to
	cuts        bool    // the clip begins and ends within firings
}

// plain is a scene that nothing is special about.
func plain(kind known.Kind) scene {
	return scene{kind: kind, first: 2, least: 2, most: 5, off: 0.4, quiet: 24, loud: 50}
}

// sitting plays all that happens at the table, and returns what the operator tells and
// the symptoms that show.
func (t *take) sitting(s scene) known.Truth {
	told := t.programme(s)
	shots := t.healthy(told, s.off)
	truth := known.Truth{Kind: s.kind, Told: told, Healthy: true}
	if s.fault != nil {
		truth.Symptoms, truth.Healthy = s.fault(t, shots)
	}
	b, w := t.body(s), t.winder(s.winding)
	pace := t.ratio(0.6, 1.6)
	at := t.between(0.6, 2.5)
	for i, p := range shots {
		if i > 0 {
			at = t.pause(s, b, at, p.first) + pace*t.between(0.2, 0.9)
		}
		at = t.wind(w, b, at) + pace*t.between(0.3, 1.2)
		if s.before != nil {
			at = s.before(t, b, at)
		}
		at = t.fire(b, p, at) + pace*t.between(0.3, 1)
		if p.stays {
			at = t.closedByHand(b, at)
		}
	}
	t.upTo(int((at + t.between(0.5, 2)) * t.rate))
	for _, f := range s.over {
		f(t)
	}
	return truth
}

// closedByHand closes what hangs open for good.
func (t *take) closedByHand(b body, at float64) float64 {
	shut := t.closing(b.shutter, at+t.between(0.5, 2), 1)
	t.heard("handling", shut.Start, shut.Stop+0.02, 1)
	return shut.Stop + 0.5
}

// pause is between two firings: a speed is set, something else happens.
func (t *take) pause(s scene, b body, at float64, next bool) float64 {
	if next {
		for range t.whole(0, 2) { // clicks of the speed ring, a rustle
			gain := t.gain(-34, -14)
			begin := t.play(t.shot(t.voice(click, 1, 0.01)), at+t.between(0.1, 0.4), gain)
			t.heard("handling", begin, begin+0.02, gain)
			at = begin
		}
	}
	if s.between != nil {
		at = s.between(t, b, at)
	}
	return at
}

// seconds that are on the tape.
func (t *take) seconds() float64 { return float64(len(t.tape)) / t.rate }
