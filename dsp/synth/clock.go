package synth

// minTick is the shortest time between two ticks, s: one tick is a burst of 45 ms.
const minTick = 0.1

// Clock is a ticking clock on the wall.
type Clock struct {
	Every  float64 // s from tick to tick
	Jitter float64 // standard deviation of a tick's onset about its due time, s
	Level  float64 // dB of a tick's loudest 2 ms against the click
	Alike  bool    // every tick sounds the same; otherwise tick and tock alternate
}

// clock adds a clock's ticks from the clip's start to its end, at first at any time
// within one period. Ticks are named tick and tock by turns, unless alike.
func (c *composer) clock(k Clock, length float64) {
	sounds := [2][]part{drawTick(c.d), drawTick(c.d)}
	names := [2]string{"tick", "tock"}
	if k.Alike {
		sounds[1], names[1] = sounds[0], names[0]
	}
	start := c.d.between(0.001, k.Every)
	for n := 0; ; n++ {
		at := start + float64(n)*k.Every + k.Jitter*c.d.normal()
		if at >= length {
			return
		}
		sound := sounds[n%2]
		c.add(names[n%2], at, at+0.045, func(d dice) []grain {
			var grains []grain
			for _, p := range sound {
				grains = append(grains, p.voice.strike(d, at+p.after, k.Level+p.level+0.5*d.normal())...)
			}
			return grains
		})
	}
}

// part is one of the impacts that make a tick, s after its first.
type part struct {
	voice        voice
	after, level float64
}

// drawTick draws three to six impacts within 45 ms, one of them at level 0 dB.
func drawTick(d dice) []part {
	housing := drawModes(d, d.count(6, 12), [2]float64{d.scale(300, 1200), d.scale(4000, 10000)}, [2]float64{8, 40})
	parts := make([]part, d.count(3, 6))
	loud := d.IntN(len(parts))
	for i := range parts {
		p := part{level: d.between(-18, -4)}
		if i == loud {
			p.level = 0
		}
		if i > 0 {
			p.after = 0.04 * (float64(i) + d.between(-0.4, 0.4)) / float64(len(parts)-1)
			p.after = min(p.after, 0.045)
		}
		p.voice = housing.voice(d, contact{time: d.scale(30e-6, 150e-6), rattle: d.between(0.2, 0.8), ring: d.between(0.3, 0.8), share: 0.7})
		parts[i] = p
	}
	return parts
}
