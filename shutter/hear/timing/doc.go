// Package timing makes times of the ends of firings: [Firings] of ends heard apart, [Fast]
// of those that are one sound. [Attend] then listens to each firing again: how its blades
// struck, how its escapement beat, and where that faltered. [Smear] and [Levelled] say what
// the recorder did to all of it.
//
// It knows which sounds are the ends of a firing, and never why.
package timing

// SameSound is how long one movement of the blades may go on making new sounds,
// in s: an end stop follows the start by 2 to 8 ms and a bounce the closing by 3
// to 6 (common practice, no source). What begins later is another sound.
const SameSound = 0.012

// Ringing is how long a movement may be heard afterwards, in s.
const Ringing = 0.030
