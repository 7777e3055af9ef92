package judge

import "earshot/shutter"

// JudgedFiring is a firing with what became of it.
type JudgedFiring struct {
	shutter.Firing
	Mark      *shutter.Mark // nil where it could not be placed at a speed
	Assumed   bool
	Deviation float64 // stops, + is slow; 0 unless Closed and placed
	Judged    bool    // counted in its speed's figures
	Reason    string  // why not, where not
	Symptoms  []SymptomName
}

// Budget holds the terms of U95 of a speed's mean deviation, each its own 95 %
// half-width in stops.
type Budget struct {
	Repeatability, Onset, Clock, Edge float64
}

// Summary holds the figures of one speed over its judged firings, in stops
// unless said otherwise. N is 0 where there is nothing to sum up.
type Summary struct {
	N         int
	Deviation float64 // mean of the deviations; meaningful unless MeanHidden
	Duration  float64 // s: Nominal · 2^Deviation
	Median    float64 // median of the deviations
	First     float64 // s: duration of the first firing
	SD        float64 // standard deviation, n − 1; 0 for one firing
	Spread    float64 // max − min
	Scatter   float64 // standard deviation that the repeatability is reckoned from: SD, or pooled over speeds of its kind
	DF        int     // degrees of freedom of Scatter; 0 where it is not known
	U95       float64
	Budget    Budget
	// MeanHidden is true where an outlier or an erratic spread makes a mean misleading.
	// Then the firings and their median are shown, and no mean.
	MeanHidden bool
}

// Speed is one marked speed with its firings judged. It may gather several runs.
type Speed struct {
	Mark     shutter.Mark
	Assumed  bool
	Firings  []int // indices into Check.Firings, in time order
	Summary  Summary
	Residual Residual // off the line of the other speeds
	Symptoms []Symptom
	Verdict  Verdict
	Why      string
	Next     string // what would settle or improve it; empty where nothing would
}

// Check is everything found out about one shutter.
type Check struct {
	Policy   Policy
	Firings  []JudgedFiring
	Speeds   []Speed   // in dial order, slowest first
	Line     Line      // of the speeds, against each other
	Symptoms []Symptom // those of the shutter as a whole
	Verdict  Verdict
	Partly   bool // fewer than four speeds, or not the slowest, were judged, or firings or the want of them left one open
	Why      []string
	Next     string
	Warnings []string // from the laying
}
