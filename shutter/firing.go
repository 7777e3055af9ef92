package shutter

import "math"

// Edge names what a firing was timed by, a part of the blades' movement mostly. Both
// ends of a firing are always timed by the same edge.
type Edge string

// The edges of a movement that sound can show, and one that a person chose.
const (
	EdgeStart Edge = "start"    // the first sound of the blades moving
	EdgeStop  Edge = "end stop" // the blades hitting their end stop
	EdgeHand  Edge = "by hand"  // wherever a person set both ends
)

// Buzz is what was heard of the slow-speed escapement between opening and closing.
type Buzz struct {
	Heard bool
	Rate  float64 // beats a second, the median over the run; 0 where it could not be measured
	Level float64 // dB against the weaker of opening and closing; 0 where not heard

	// Early and Late are the beats a second of a straight line through the run, where
	// it is first and last heard: an escapement runs down as its spring does. 0 where
	// the run is too short to tell.
	Early, Late float64

	Falters []Falter // in time order
}

// Falter is a stretch of a buzz in which the escapement stood still or nearly so,
// and after which it went on.
type Falter struct {
	Start  float64 // s after the opening
	Length float64 // s
}

// Blades is how an opening or a closing sounded: by itself, and against those of the
// other firings of its clip.
type Blades struct {
	Level float64 // of its loudest half millisecond, dBFS; 0 where it was not measured
	Lead  float64 // s by which, in the mean, what is heard of it comes before that; 0 where none was told

	// Strength is its level against the median of its clip, dB, and Drawn the ratio of its
	// Lead to the median Lead. Both are 0 if there are too few firings to compare with.
	// Drawn is also 0 if the Lead of most of them is not known.
	Strength, Drawn float64
}

// Firing is one actuation of the shutter as it was heard, before anything is
// known of the speed it was set to. Times are in s from the start of its clip.
type Firing struct {
	Clip   int     // index of the clip it was heard in
	Open   float64 // onset of the opening
	Close  float64 // onset of the closing; 0 unless Closed
	Closed bool    // a closing was heard
	U      float64 // standard uncertainty of Duration from the two onsets, s
	Common float64 // the part of U that is one error, the same in all firings of the clip, s; at most U
	Edge   Edge    // what both ends were timed by
	Buzz   Buzz

	Opening, Closing Blades
	Bounce           float64 // s after the closing at which the blades bounced open again; 0 where they did not

	// Unfit says why the firing is listed but can't be counted in a mean at any speed, as where
	// samples are lost in it or the clip ends before it closes. It is empty if it can.
	Unfit string
}

// Duration is the time from opening to closing in s, 0 for a firing that never closed.
func (f Firing) Duration() float64 {
	if !f.Closed {
		return 0
	}
	return f.Close - f.Open
}

// HangsAfter is how long beyond the time of its speed, in s, blades may stay open
// before they count as hanging, whatever is heard afterwards.
const HangsAfter = 3

// Hangs tells whether the firing, made at m, stayed open: nothing closed it, or it closed so late
// that the shutter did not close it by itself.
func (f Firing) Hangs(m Mark) bool { return !f.Closed || f.Duration() > m.Nominal+HangsAfter }

// The limits of a duration in s. Two onsets outside them are an error: no blade opens and closes
// in a microsecond, and no clip lasts for eleven days.
const shortest, longest = 1e-6, 1e6

// DeviationFrom returns log2(duration/nominal) in stops. It returns 0 and false for a firing that
// did not close, whose duration is out of range or shorter than its uncertainty, or whose
// shared uncertainty is more than all of it.
func (f Firing) DeviationFrom(m Mark) (float64, bool) {
	d := f.Duration()
	if !(d >= shortest && d <= longest) || !(f.U >= 0 && f.U <= d) || !(f.Common >= 0 && f.Common <= f.U) {
		return 0, false
	}
	return math.Log2(d) - math.Log2(m.Nominal), true
}

// StopsOf returns a small change of a duration in stops; both are in the same unit.
func StopsOf(change, duration float64) float64 { return change / (duration * math.Ln2) }
