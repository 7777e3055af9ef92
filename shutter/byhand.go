package shutter

// HandTimed is a firing as a person set it in a clip, in s from its start. Close is
// meaningless unless Closed.
type HandTimed struct {
	Open, Close float64
	Closed      bool
}

// Corrected is how a person changed the firings heard in a clip. Each firing is AsHeard, Moved or
// Added. Each that was heard and is not among them was LeftOut.
type Corrected struct {
	Firings               []Firing // in time order
	AsHeard, Moved, Added int
	LeftOut               []Firing
}
