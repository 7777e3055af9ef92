package shutter

// Mark is a speed as marked on the dial, with the exact time behind it.
type Mark struct {
	Label   string  // in full: "1", "1/2", "1/15", "2s"
	Nominal float64 // s: 1/16 behind "1/15" of the modern series
}

// Step is one dial setting in the order fired.
type Step struct {
	Mark  Mark
	Count int // firings made at it; 0 where not told
}

// Run is the unbroken run of firings made at one setting of the dial.
type Run struct {
	Mark    Mark
	Assumed bool  // taken from the durations, not told
	Firings []int // indices into the firings, in time order
}

// Doubt says why a firing is not counted at a speed though it was heard well.
type Doubt struct {
	Firing int
	Reason string
}

// Laying is how the firings were laid against the dial settings. Every firing is
// in one run or has a doubt, or both (placed, but not safely).
type Laying struct {
	Runs     []Run
	Doubts   []Doubt
	Misfits  []Misfit // settings told that do not fit what was heard
	Unheard  []Mark   // marks told and without a firing
	Warnings []string // missed firings, counts that disagree, settings without a firing
}
