package synth

import (
	"math"
	"slices"
)

// record renders block k into buf and keeps the recorder's memory after it.
func (c *Clip) record(k int) {
	first := int64(k) * int64(c.block)
	n := int(min(int64(c.block), c.total-first))
	state := c.states[k]
	floor := c.floor(&state, k, n)
	ch := c.format.Channels
	x := make([]float64, n*ch)
	var sound []float64
	for m, mic := range c.phone.Mics {
		if m == 0 || mic.Delay != c.phone.Mics[m-1].Delay {
			sound = c.arriving(stretch{first, n}, mic.Delay)
		}
		if !mic.Dead {
			c.hear(x[m:], mic, sound, floor)
		}
	}
	c.hiss(x, k)
	c.control(&state, x)
	if len(c.states) == k+1 {
		c.states = append(c.states, state)
	}
	c.buf = c.lose(x, first)
	c.loaded = -1
}

// stretch is n frames of the sound from first on.
type stretch struct {
	first int64
	n     int
}

// hear writes one microphone's channel of sound and floor to every Channels-th sample
// of dst.
func (c *Clip) hear(dst []float64, mic Mic, sound, floor []float64) {
	g := gain(mic.Gain)
	if mic.Invert {
		g = -g
	}
	ch := c.format.Channels
	for i, v := range sound {
		if floor != nil {
			v += floor[i]
		}
		dst[i*ch] = g * v
	}
}

// arriving renders the sounds and the room's echo of them, at the recorder's gain.
func (c *Clip) arriving(at stretch, delay float64) []float64 {
	before := 0
	if c.echo != nil {
		before = c.echo.taps
	}
	dry := make([]float64, before+at.n)
	first := at.first - int64(before)
	from, to := float64(first)/c.player.rate, float64(at.first+int64(at.n))/c.player.rate
	sounding := c.sounding(from-delay, to)
	for _, grains := range sounding {
		for i := range grains {
			g := grains[i]
			g.at += delay
			c.player.add(dry, first, &g, c.gain)
		}
	}
	wet := dry[before:]
	if c.echo != nil && len(sounding) > 0 {
		wet = slices.Clone(wet)
		c.echo.add(wet, dry)
	}
	return wet
}

// floor renders noise and hum, nil where there is neither.
func (c *Clip) floor(m *memory, k, n int) []float64 {
	if c.noise == 0 && c.hum == 0 {
		return nil
	}
	x := make([]float64, n)
	if c.noise > 0 {
		d := newDice(c.seed, 1<<32+uint64(k))
		if k == 0 {
			c.colour(m, make([]float64, int(c.player.rate/10)), newDice(c.seed, 5))
		}
		c.colour(m, x, d)
	}
	if c.hum > 0 {
		c.wave.add(x, int64(k)*int64(c.block), c.player.rate, c.hum)
	}
	return x
}

// colour fills x with noise and passes it through the shelves.
func (c *Clip) colour(m *memory, x []float64, d dice) {
	state := m.shelves
	for i := range x {
		v := c.noise * d.NormFloat64()
		for j, s := range c.shelves {
			v *= s.scale
			y := v + state[j]
			state[j] = s.pole*y - s.zero*v
			v = y
		}
		x[i] = v
	}
	m.shelves = state
}

// hiss adds each microphone's own noise.
func (c *Clip) hiss(x []float64, k int) {
	ch := c.format.Channels
	for m, mic := range c.phone.Mics {
		if mic.Hiss == 0 || mic.Dead {
			continue
		}
		d := newDice(c.seed, 2<<32+uint64(k)*64+uint64(m))
		for i := m; i < len(x); i += ch {
			x[i] += gain(mic.Hiss) * d.NormFloat64()
		}
	}
}

// control applies gain control, gate, quantisation and clipping to all channels
// alike.
func (c *Clip) control(m *memory, x []float64) {
	ch := c.format.Channels
	for i := 0; i < len(x); i += ch {
		frame := x[i : i+ch]
		factor := c.factor(m, frame)
		for j, v := range frame {
			frame[j] = quantise(factor*v, c.phone.Bits)
		}
	}
}

// factor is what gain control and gate make of a frame.
func (c *Clip) factor(m *memory, frame []float64) float64 {
	if c.phone.Auto == nil && c.phone.Gate == nil {
		return 1
	}
	peak := 0.0
	for _, v := range frame {
		peak = max(peak, math.Abs(v))
	}
	factor := 1.0
	if a := c.phone.Auto; a != nil {
		factor = a.turn(m, peak, c.player.rate)
	}
	if g := c.phone.Gate; g != nil && !g.open(m, factor*peak, c.player.rate) {
		return 0
	}
	return factor
}

// lose zeroes and drops what the recorder lost of x, which begins at a frame of the
// sound.
func (c *Clip) lose(x []float64, first int64) []float64 {
	ch := int64(c.format.Channels)
	end := first + int64(len(x))/ch
	kept := x[:0]
	at := first
	for _, l := range c.losses {
		from, to := min(max(l.from, first), end), min(max(l.to, first), end)
		if from >= to {
			continue
		}
		kept = append(kept, x[(at-first)*ch:(from-first)*ch]...)
		if !l.dropped {
			part := x[(from-first)*ch : (to-first)*ch]
			clear(part)
			kept = append(kept, part...)
		}
		at = to
	}
	return append(kept, x[(at-first)*ch:]...)
}
