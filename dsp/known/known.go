// Package known holds what is known of a recording that was made: its samples, and what
// really happened in it. Generators that share nothing else share these types, so that
// one benchmark can hold hearing against all of them.
//
// Times are in s from the first sample, as the recording shows them: by the recorder's
// own clock, and after whatever it cut out or lost.
package known

// Recording is what was recorded, and how it is kept as a file.
type Recording struct {
	Name     string      // of the kind of recording, the same for every seed: "self-timer"
	Rate     int         // sample rate, Hz
	Channels [][]float64 // samples of each channel, full scale ±1, all of one length
	Coding   Coding      // what the file does to it; zero: 16-bit PCM
	Truth    Truth
}

// Coding is a lossy coding by one of ffmpeg's encoders: {"aac", ".m4a", 64}.
type Coding struct {
	Encoder string // "" for none
	Suffix  string // of the file that holds it
	Kbits   int    // a second
	Rate    int    // sample rate of the file, Hz; 0: that of the recording
}

// Kind is the kind of shutter.
type Kind string

// The kinds of shutter.
const (
	Leaf       Kind = "leaf"        // by itself
	Reflex     Kind = "reflex"      // a leaf shutter in a reflex body, viewed through open blades
	FocalPlane Kind = "focal-plane" // two curtains
	Nothing    Kind = ""            // nothing was fired
)

// Truth is what really happened.
type Truth struct {
	Kind    Kind
	Told    []Setting // what an operator without an error would tell, in the order fired
	Firings []Firing  // in the order of time
	Others  []Other   // everything else that was heard, in the order of time

	Healthy  bool     // a shutter without a fault, however far off its marks
	Symptoms []string // of the shutter as a whole: "needs exercise", "slow escapement"
	SNR      float64  // median level of the ends over the noise, both above 1 kHz and over 3 ms, dB
	Skips    float64  // s of quiet after which the recorder stops; 0: it records throughout
}

// Setting is a run of firings at one mark.
type Setting struct {
	Mark    string  // as on the dial: "1/4"
	Nominal float64 // s: binary for the modern series, the mark itself for the older
	Count   int
}

// Stroke is one movement of blades or of a curtain: its first sound, and the first sound
// of the stop it runs against, s. Both are the same where only one is heard.
type Stroke struct{ Start, Stop float64 }

// Firing is one actuation of the shutter. A bulb firing, a second camera, a firing that
// the clip cuts off: all are firings, and Plain says which of them must be heard.
type Firing struct {
	Mark    string // "" for one at no mark (bulb, a second camera)
	Nominal float64
	Open    Stroke
	Close   Stroke // zero unless Closes
	Closes  bool
	Edge    float64 // s by which light's half-way time at the opening less that at the closing differs from sound's

	Plain    bool     // whole, of the shutter that was told of, and within the reach of hearing
	Symptoms []string // faults that showed in this firing: "closes early", "hangs open", "hesitates", "lazy blades", "bounces open"
	Beats    float64  // of the escapement at its start, beats/s; 0: no buzz
}

// Other is any other sound, from when to when, s.
type Other struct {
	Kind       string // "winding", "speech", "self-timer", "release"
	Start, End float64
}
