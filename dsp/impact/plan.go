package impact

import "earshot/dsp/known"

// plan is everything that is drawn before a clip is made, and that a kind may change.
type plan struct {
	dice
	rate, thin int // samples a second while it sounds, and how many of them make one recorded
	shutter    *shutter
	winder     winder
	told       []known.Setting
	wait       float64 // s a firing takes besides its time

	timer  bool     // a self-timer runs before each firing
	ticks  float64  // of the self-timer, a second
	bulbs  int      // how many firings at bulb
	other  *shutter // a second camera
	second float64  // chance that it is fired after a firing
	bumps  float64  // chance of a knock after a firing
	crop   bool     // the clip starts and ends within a firing
	beside []func(*scene)

	symptoms []string
	ailing   bool

	rt       [2]float64 // s
	distance float64    // m from shutter to phone
	snr      float64    // dB
	noise    noise
	peak     float64 // of what is recorded, dB under full scale
	clock    float64 // s of the recorder in a true second
	mic      []biquad
	phone    []step
	split    func(*take)
	coding   known.Coding
	lasts    [2]float64 // s of a clip in which nothing is fired
}

// draw draws a plan for a healthy leaf shutter in an ordinary shop.
func draw(seed uint64, name string) *plan {
	d := newDice(seed, name)
	p := &plan{dice: d, thin: 1, clock: 1}
	p.rate = one(d, 44100, 48000, 48000)
	p.shutter = d.leaf()
	p.winder = d.winder()
	p.ticks = d.ratio(18, 90)
	p.wait = d.ratio(1, 2.6)
	series := marks(modern(), 1, 1/60.0*0.9)
	if d.chance(0.2) {
		series = marks(older(), 1, 1/50.0)
	}
	p.tells(series, 1, 5)
	p.rt = [2]float64{0.1, 0.45}
	p.distance = d.ratio(0.1, 0.35)
	p.snr = d.in(24, 48)
	p.noise = d.noise()
	p.lasts = [2]float64{40, 60}
	p.peak = d.in(-20, -1)
	p.mic = d.microphone(float64(p.rate))
	if d.chance(0.3) {
		p.bumps = d.in(0.03, 0.15)
	}
	return p
}

// tells draws what is fired, so that the clip lasts about a minute.
func (p *plan) tells(series []known.Setting, low, high int) {
	p.told = p.tell(series, low, high, p.wait+0.4, p.in(34, 54))
}

// ails gives the shutter a fault; symptoms are those of the shutter as a whole.
func (p *plan) ails(f fault, symptoms ...string) {
	p.shutter.fault = f
	p.ailing, p.symptoms = true, symptoms
	p.shutter.off = p.in(-0.2, 0.3)
}

// at sets the sample rates: of sound, and how many samples make one recorded.
func (p *plan) at(rate, thin int) {
	p.rate, p.thin = rate, thin
	p.mic = p.microphone(float64(rate))
}
