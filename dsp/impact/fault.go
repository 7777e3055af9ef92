package impact

import "math"

// Faults, each as grave as was drawn: from just visible to gross.

// closesEarly makes some firings, or all but a few, close too early.
func closesEarly(d dice) fault {
	share, often := d.ratio(0.12, 0.8), d.in(0.25, 0.9)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if nominal < 1.0/20 || !d.chance(often) {
			return
		}
		f.lasts *= 1 - share*d.in(0.8, 1.1)
		if d.chance(0.15) {
			f.lasts = min(f.lasts, d.in(0.012, 0.04))
		}
		f.symptoms = append(f.symptoms, "closes early")
	}
}

// hangsOpen makes some firings stay open: until freed by hand, or for good.
func hangsOpen(d dice) fault {
	often, freed := d.in(0.15, 0.6), d.chance(0.6)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if nominal < 1.0/35 || !d.chance(often) {
			return
		}
		f.hangs, f.freed = true, freed || d.chance(0.3)
		f.stops = f.lasts * d.in(0.2, 0.9)
		f.lasts = f.lasts*d.in(1.3, 2.5) + d.in(0.3, 1.5)
		f.symptoms = append(f.symptoms, "hangs open")
	}
}

// hesitates makes the buzz stop and go on.
func hesitates(d dice) fault {
	often, share := d.in(0.3, 1), d.ratio(0.06, 0.8)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if nominal < 1.0/9 || !d.chance(often) {
			return
		}
		from := f.lasts * d.in(0.2, 0.7)
		waits := max(f.lasts*share*d.in(0.7, 1.3), 0.02)
		f.rest = pause{from, from + waits}
		f.lasts += waits
		f.symptoms = append(f.symptoms, "hesitates")
	}
}

// needsExercise makes the first firings slow, until the shutter frees up.
func needsExercise(d dice) fault {
	stops, frees, all := d.ratio(0.25, 2), d.in(1, 4), d.chance(0.5)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if all {
			mth = nth
		}
		slow := stops * math.Exp(-float64(mth)/frees)
		f.lasts *= math.Exp2(slow)
		f.slower *= math.Exp2(-0.8 * slow)
	}
}

// erratic makes every firing differ from the next.
func erratic(d dice) fault {
	stops := d.ratio(0.12, 0.8)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		off := stops * d.NormFloat64()
		f.lasts *= math.Exp2(off)
		f.slower *= math.Exp2(-0.5 * off)
	}
}

// lazyBlades makes blades creep open or shut.
func lazyBlades(d dice) fault {
	often, slow, both := d.in(0.4, 1), d.ratio(2.5, 9), d.count(0, 2)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if nominal < 1.0/20 || !d.chance(often) {
			return
		}
		if both != 0 {
			f.opens = 1 / (slow * d.about(0.1))
		}
		if both != 1 {
			f.closes = 1 / (slow * d.about(0.1))
		}
		f.symptoms = append(f.symptoms, "lazy blades")
	}
}

// bouncesOpen makes the blades open once more after they have closed.
func bouncesOpen(d dice) fault {
	often, after := d.in(0.3, 1), d.in(0.006, 0.03)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if d.chance(often) {
			f.reopens = after * d.about(0.08)
			f.symptoms = append(f.symptoms, "bounces open")
		}
	}
}

// slowEscapement makes the slow speeds slow, with slow beats, and leaves the fast ones.
func slowEscapement(d dice, drops float64) fault {
	stops := d.ratio(0.4, 1.6)
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		if nominal >= drops*0.999 {
			f.lasts *= math.Exp2(stops)
			f.slower *= math.Exp2(-stops)
		}
	}
}

// unevenSteps makes each mark off by another amount.
func unevenSteps(d dice) fault {
	stops, seed := d.ratio(0.25, 0.8), d.Uint64()
	return func(d dice, f *fate, nominal float64, nth, mth int) {
		own := newDice(seed, string(rune(int(nominal*10000))))
		f.lasts *= math.Exp2(stops * own.in(-1.3, 1.3))
	}
}
