package synth

// Symptom names what is wrong with a shutter or a firing.
type Symptom string

// The faults a shutter can be given. What Grade means is stated beside each.
const (
	HangsOpen      Symptom = "hangs open"      // grade: s waited before it is freed by hand; 0: 3.5 to 5
	ClosesEarly    Symptom = "closes early"    // grade: stops too short
	NeedsExercise  Symptom = "needs exercise"  // grade: stops the first firing is slower than a freed one
	Erratic        Symptom = "erratic"         // grade: standard deviation of the firings, stops
	Hesitates      Symptom = "hesitates"       // grade: s the escapement stands still
	LazyBlades     Symptom = "lazy blades"     // grade: dB one movement is weaker; it is drawn out too
	BouncesOpen    Symptom = "bounces open"    // grade: s after closing at which the blades open again
	SlowEscapement Symptom = "slow escapement" // grade: stops, at the speeds that have a buzz
	UnevenSteps    Symptom = "uneven steps"    // grade: stops
)

// Stroke is one movement of the blades or of a curtain: its first sound and the
// first sound of the stop it runs against, s.
type Stroke struct{ Start, Stop float64 }

// Firing is the truth of one firing, times in s from the clip's start.
type Firing struct {
	Setting  int     // index into Truth.Settings
	Label    string  // marked speed
	Nominal  float64 // s
	Open     Stroke
	Close    Stroke // zero unless Closes
	Closes   bool
	Symptoms []Symptom // faults that showed in this firing alone

	BeatRate  float64 // of the escapement at its start, beats/s; 0: no buzz
	BuzzLevel float64 // dB of a beat against the click

	// Lost is how many s the recorder dropped between opening and closing; Muted
	// says that it replaced samples there by zeros.
	Lost  float64
	Muted bool
}

// Duration is how long the shutter was really open, s, from the start of the
// opening to the start of the closing; 0 where it never closed.
func (f Firing) Duration() float64 {
	if !f.Closes {
		return 0
	}
	return f.Close.Start - f.Open.Start + f.Lost
}

// StopToStop is Duration from end stop to end stop.
func (f Firing) StopToStop() float64 {
	if !f.Closes {
		return 0
	}
	return f.Close.Stop - f.Open.Stop + f.Lost
}

// Sound is anything else that was heard: which, and from when to when, s. Its last
// decay goes on a little longer.
type Sound struct {
	Kind       string
	Start, End float64
}

// Truth is what really happened in a clip, with all times as the clip shows them: by
// the recorder's clock, and moved where samples were dropped.
type Truth struct {
	Settings []Setting // in the order fired
	Firings  []Firing  // in the order of time
	Sounds   []Sound   // in the order of time
	Click    float64   // click level in the recording before gain control, dBFS RMS
	Noise    float64   // level of the noise in the same band, dBFS RMS; −Inf without noise
	Losses   []Loss    // what the recorder lost, in the order of time
}
