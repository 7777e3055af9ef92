package synth

// Kind is how a shutter is built.
type Kind string

// The kinds of shutter that can be drawn.
const (
	Leaf       Kind = "leaf"
	Reflex     Kind = "leaf in a reflex body"
	FocalPlane Kind = "focal plane"
)

// Winding is how a shutter is made ready.
type Winding string

// The ways of winding. A shutter that cocks itself as it is fired has none.
const (
	NoWinding      Winding = ""
	RatchetWinding Winding = "ratchet" // 8 to 20 clicks and a latch
	StrokeWinding  Winding = "stroke"  // one stroke of a lever
)

// Shutter is one shutter. Draw gives it everything, and every field may be changed
// before it is put into a Take. How its parts sound follows from the seed.
type Shutter struct {
	Kind    Kind
	Size    float64 // 0 small to 1 big
	Soft    bool    // its blades start softly
	Lever   bool    // the release is heard before the blades; of a bare leaf shutter
	Winding Winding
	Loud    float64 // level of winding, dB against the click

	BeatRate  float64 // of the slow-speed escapement when it starts, beats/s; 0: none, an air brake
	BuzzLevel float64 // of a beat, dB against the click
	RunDown   float64 // share of the beat rate lost in a firing of 1 s
	DropOut   float64 // s; the pallet is out at nominal times shorter than this

	Deviation float64 // of all speeds, stops; + is slow
	Uneven    float64 // standard deviation of the single speeds around it, stops
	Scatter   float64 // standard deviation from firing to firing, stops
	Faults    []Fault

	seed uint64
}

// Fault is one thing wrong with a shutter.
type Fault struct {
	Symptom Symptom
	Grade   float64  // how much; its unit is stated at the symptom
	Share   float64  // share of the firings it shows in, for those that come and go; at least one
	Marks   []string // the settings concerned; none: all it can concern
}

// Draw draws a healthy shutter. Equal seeds draw equal shutters.
func Draw(seed uint64, kind Kind) *Shutter {
	d := newDice(seed, 1)
	s := &Shutter{
		Kind:      kind,
		Size:      d.Float64(),
		Soft:      d.chance(0.35),
		Winding:   drawWinding(d, kind),
		Loud:      d.between(-8, 8),
		BuzzLevel: d.between(-35, -20),
		RunDown:   d.between(0.05, 0.25),
		DropOut:   d.scale(1.0/25, 1.0/8),
		Deviation: 0.08 * d.normal(),
		Uneven:    0.05,
		Scatter:   d.scale(0.004, 0.02),
		Lever:     kind == Leaf && d.chance(0.4),
		seed:      seed,
	}
	if kind != Leaf || d.chance(0.85) {
		s.BeatRate = d.scale(60, 600)
	}
	return s
}

func drawWinding(d dice, kind Kind) Winding {
	switch p := d.Float64(); {
	case p < 0.45:
		return StrokeWinding
	case p < 0.85 || kind != Leaf:
		return RatchetWinding
	}
	return NoWinding
}

// buzzes says whether the escapement is heard at a nominal time in s.
func (s *Shutter) buzzes(nominal float64) bool {
	return s.BeatRate > 0 && nominal >= s.DropOut
}
