package synth

import "math"

// gears is how the slow-speed escapement sounds: a pallet whose two ends strike the
// star wheel in turn, and the train behind it.
type gears struct {
	entry, exit voice
	hiss        voice
	uneven      float64 // dB between the two ends of the pallet
	jitter      float64 // of a beat's length, relative
	hissLevel   float64 // dB against the click
	engage      float64 // s from the end stop of the opening to the first beat
	release     float64 // s from the last possible beat to the closing
}

func drawGears(d dice, shell body) gears {
	beat := func() voice {
		return shell.voice(d, contact{time: d.scale(12e-6, 60e-6), rattle: d.between(0.1, 0.7), ring: d.between(0.15, 0.5), share: 0.5})
	}
	g := gears{
		entry:     beat(),
		exit:      beat(),
		hiss:      shell.voice(d, contact{time: 20e-6, attack: 0.1e-3, rattle: 2, ring: 0.15, share: 0.3, spread: 0.2}),
		uneven:    d.between(-3, 3),
		jitter:    d.between(0.01, 0.04),
		hissLevel: d.between(-55, -42),
		engage:    d.between(1e-3, 5e-3),
		release:   d.between(0.5e-3, 2e-3),
	}
	return g
}

// buzz is one run of the escapement.
type buzz struct {
	from, to   float64 // s; the closing starts at to
	rate       float64 // beats/s at the start
	level      float64 // dB against the click
	loss       float64 // share of the rate lost over the run
	stallAt    float64 // s at which it stands still; 0: nowhere
	stallFor   float64 // s
	runsToRest bool    // it slows down and stops instead of letting go
}

// sound is the buzz heard.
func (g *gears) sound(d dice, b buzz) []grain {
	var grains []grain
	length := b.to - b.from
	t := b.from + g.engage
	for n := 0; t < b.to-g.release; n++ {
		v, level := g.entry, b.level+g.uneven/2
		if n%2 == 1 {
			v, level = g.exit, b.level-g.uneven/2
		}
		grains = append(grains, v.strike(d, t, level+1.2*d.normal())...)
		step := d.near(1/b.rateAt((t-b.from)/length), g.jitter)
		if b.stallFor > 0 && t < b.stallAt && t+step >= b.stallAt {
			step += b.stallFor
		}
		t += step
	}
	return grains
}

// rateAt is the beat rate at a share u of the run's length.
func (b *buzz) rateAt(u float64) float64 {
	rate := b.rate * math.Pow(1-b.loss, u)
	if b.runsToRest {
		rate *= math.Max(1-u*u, 0.05)
	}
	return rate
}

// whirr is the train turning without the pallet: a faint hiss from one time to
// another, s.
func (g *gears) whirr(d dice, from, to float64) []grain {
	var grains []grain
	for t := from; t < to; t += d.ExpFloat64() / 1500 {
		grains = append(grains, g.hiss.strike(d, t, g.hissLevel+3*d.normal())...)
	}
	return grains
}
