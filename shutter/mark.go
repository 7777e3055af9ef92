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
