package impact

import "math"

// noise is what is heard all the time.
type noise struct {
	pink, brown float64 // levels against white, dB over all
	hum         float64 // level of hum against the rest, dB over all; 0 for none
	mains       float64 // Hz
	sways       float64 // share by which it swells and fades
}

// noise draws the noise of a shop.
func (d dice) noise() noise {
	n := noise{pink: d.in(0, 20), brown: d.in(0, 30), mains: one(d, 50.0, 60), sways: d.in(0, 0.25)}
	if d.chance(0.25) {
		n.hum = d.in(-12, 6)
	}
	return n
}

// sound makes so many samples of it.
func (n noise) sound(d dice, rate float64, samples int) []float64 {
	x := make([]float64, samples)
	pink, brown := amplitude(n.pink), amplitude(n.brown)
	keep := math.Exp(-2 * math.Pi * 40 / rate)
	var poles [4]float64
	var deep float64
	sway := 2 * math.Pi * d.in(0.05, 0.4) / rate
	for i := range x {
		w := 3.46 * (d.Float64() - 0.5)
		deep = keep*deep + math.Sqrt(1-keep*keep)*w
		x[i] = (w + pink*pinked(&poles, w) + brown*deep) * (1 + n.sways*math.Sin(sway*float64(i)))
	}
	if n.hum != 0 {
		n.addHum(d, x, rate)
	}
	return x
}

// pinked is noise that falls by 3 dB an octave: a sum of slow and fast poles.
func pinked(poles *[4]float64, w float64) float64 {
	poles[0] = 0.9985*poles[0] + 0.024*w
	poles[1] = 0.985*poles[1] + 0.077*w
	poles[2] = 0.88*poles[2] + 0.19*w
	poles[3] = 0.3*poles[3] + 0.45*w
	return 0.55 * (poles[0] + poles[1] + poles[2] + poles[3])
}

// addHum adds the mains and its harmonics.
func (n noise) addHum(d dice, x []float64, rate float64) {
	all := rms(x[:min(len(x), int(rate))]) * amplitude(n.hum)
	for k := 1; k <= 12; k++ {
		level := all * d.ratio(0.1, 1) / float64(k)
		w := 2 * math.Pi * n.mains * float64(k) / rate
		c, y1, y2 := 2*math.Cos(w), 0.0, -math.Sin(w)
		for i := range x {
			y := c*y1 - y2
			x[i] += level * y
			y1, y2 = y, y1
		}
	}
}

// microphone draws how a phone hears.
func (d dice) microphone(rate float64) []biquad {
	return []biquad{
		highPass(d.ratio(50, 300), rate),
		bell(d.in(5000, 15000), rate, d.in(0.8, 3), d.in(1, 9)),
		bell(d.in(600, 3000), rate, d.in(0.5, 1.5), d.in(-4, 3)),
		lowPass(d.in(15000, 21000), rate),
	}
}
