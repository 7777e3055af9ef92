package shutter

// Evidence is one thing that speaks for a firing, or against it, as a natural logarithm
// of odds: 3 is 20 to 1 for it, −3 as much against it.
type Evidence struct {
	Weight float64
	What   string
}

// Candidate is a pair of sounds that was weighed as the opening and the closing of a
// firing. Times are the onsets of the loudest parts of both, s from the clip's start.
type Candidate struct {
	Open, Close float64 // Close is +Inf where nothing closed it
	Evidence    []Evidence
	Why         string // what became of it
}

// Total is all the evidence together.
func (c Candidate) Total() float64 {
	sum := 0.0
	for _, e := range c.Evidence {
		sum += e.Weight
	}
	return sum
}

// Nearby is a sound near what is explained.
type Nearby struct {
	At    float64 // onset of its loudest part, s
	Level float64 // dBFS
	Over  float64 // dB over what came before it
	Is    string  // "opening of firing 3"; empty for a sound in no firing
}

// Explanation is why there is a firing, or why there is none.
type Explanation struct {
	At         float64     // what was asked about, s from the clip's start
	Candidates []Candidate // the likeliest first
	Sounds     []Nearby    // in time order
	Notes      []string    // sentences

	// Leads is by how much later, in s, the loudest parts of openings and of closings begin
	// than these are timed: the median of the firings found. Candidates are marked by it.
	Leads [2]float64
}
