package synth

// knocks draws one to four knocks on wood.
func knocks(d dice) passage {
	n, gap := d.count(1, 4), d.between(0.15, 0.5)
	table := drawModes(d, d.count(8, 14), [2]float64{d.scale(90, 200), d.scale(2000, 5000)}, [2]float64{4, 15})
	v := table.voice(d, contact{time: d.scale(0.2e-3, 1.5e-3), rattle: d.between(0.02, 0.3), ring: 1})
	return passage{float64(n-1)*gap*1.3 + 0.05, func(d dice) []grain {
		var grains []grain
		for t, k := 0.0, 0; k < n; k, t = k+1, t+d.near(gap, 0.08) {
			grains = append(grains, v.strike(d, t, 2*d.normal())...)
		}
		return grains
	}}
}

// claps draws one to five claps: the air between two hands, several small impacts.
func claps(d dice) passage {
	n, gap := d.count(1, 5), d.between(0.2, 0.5)
	hands := drawModes(d, d.count(5, 9), [2]float64{d.scale(500, 900), d.scale(3000, 7000)}, [2]float64{2, 6})
	v := hands.voice(d, contact{time: d.scale(50e-6, 200e-6), attack: d.scale(0.05e-3, 0.5e-3), rattle: d.between(0.5, 1.5), ring: 1, parts: d.count(2, 6)})
	return passage{float64(n-1)*gap*1.3 + 0.05, func(d dice) []grain {
		var grains []grain
		for t, k := 0.0, 0; k < n; k, t = k+1, t+d.near(gap, 0.08) {
			grains = append(grains, v.strike(d, t, 2*d.normal())...)
		}
		return grains
	}}
}

// typing draws three to twelve keys struck: the finger, the key's bottom, and its
// return when it is let go.
func typing(d dice) passage {
	n, gap := d.count(3, 12), d.between(0.09, 0.25)
	board := drawModes(d, d.count(8, 12), [2]float64{d.scale(250, 600), d.scale(5000, 9000)}, [2]float64{4, 15})
	key := func() voice {
		return board.voice(d, contact{time: d.scale(60e-6, 300e-6), rattle: d.between(0.3, 1), ring: d.between(0.4, 1)})
	}
	touch, bottom, back := key(), key(), key()
	return passage{float64(n)*gap*1.5 + 0.15, func(d dice) []grain {
		var grains []grain
		for t, k := 0.0, 0; k < n; k, t = k+1, t+gap*d.between(0.6, 1.4) {
			down := t + d.between(3e-3, 15e-3)
			grains = append(grains, touch.strike(d, t, -14+2*d.normal())...)
			grains = append(grains, bottom.strike(d, down, 2*d.normal())...)
			grains = append(grains, back.strike(d, down+d.between(0.06, 0.12), -7+2*d.normal())...)
		}
		return grains
	}}
}

// handling draws a hand or a cloth on the camera: rubbing, and a bump or two.
func handling(d dice) passage {
	length := d.between(0.2, 1.2)
	shell := drawBody(d, 1)
	rub := shell.voice(d, contact{time: 60e-6, attack: 0.5e-3, rattle: 1.5, ring: 0.3, share: 0.4, spread: 0.2})
	bump := drawThump(d).voice(d, contact{time: d.scale(0.3e-3, 2e-3), rattle: 0.2, ring: 1, parts: d.count(1, 3)})
	return passage{length, func(d dice) []grain {
		grains := rustle(d, rub, rustling{0, length, d.scale(300, 1200), -20})
		for range d.count(1, 3) {
			grains = append(grains, bump.strike(d, d.between(0, length), -6+3*d.normal())...)
		}
		return grains
	}}
}

// selfTimer adds a self-timer running down at c.now and moves c.now to its end,
// where it lets the shutter go.
func (c *composer) selfTimer() {
	length, rate := c.d.between(6, 10), c.d.between(12, 30)
	shell := drawBody(c.d, 0.5)
	tooth := shell.voice(c.d, contact{time: 40e-6, rattle: 0.5, ring: 0.4, share: 0.5})
	trip := shell.voice(c.d, contact{time: 50e-6, rattle: 0.6, ring: 0.6})
	at, level := c.now, c.d.between(-28, -14)
	c.add("self-timer", at, at+length, func(d dice) []grain {
		var grains []grain
		for t := at; t < at+length-0.05; t += d.near(1/rate, 0.03) {
			grains = append(grains, tooth.strike(d, t, level+1.5*d.normal())...)
		}
		return append(grains, trip.strike(d, at+length-0.04, level+8)...)
	})
	c.now += length
}
