package shutter

// Policy holds the limits a shutter is judged by. They are a house's own, not a
// standard's tolerances: ISO 516 gives its own as targets for good pictures, not
// for inspection.
type Policy struct {
	Name          string
	Good          float64 // stops of mean deviation within which a speed is good
	Service       float64 // stops of mean deviation beyond which service is advised
	SpreadGood    float64 // stops of spread at three firings within which it repeats well
	SpreadService float64 // stops of spread at three firings beyond which it is erratic
	ClockPPM      float64 // half-width of the recorder's clock error, rectangular, 1e-6
	EdgeMS        float64 // half-width of the edge term, rectangular, ms
}

// Standard is the policy used unless another is asked for.
var Standard = Policy{Name: "standard", Good: 1.0 / 3, Service: 1.0 / 2, SpreadGood: 1.0 / 6, SpreadService: 1.0 / 3, ClockPPM: 100, EdgeMS: 2}

// NegativeFilm is the policy for a camera that will only see negative film.
var NegativeFilm = Policy{Name: "negative-film", Good: 1.0 / 2, Service: 1, SpreadGood: 1.0 / 6, SpreadService: 1.0 / 3, ClockPPM: 100, EdgeMS: 2}
