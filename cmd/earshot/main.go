// Command earshot listens to recordings of a mechanical leaf shutter being fired and
// says how long it stayed open, how far that is from the marked speed, whether it
// repeats, and whether it wants service. "earshot help" tells its commands.
package main

import (
	"os"
	"runtime/debug"
)

// spareHeap is how much the heap may grow before it is collected, in percent of what is in use.
// Little is kept of a clip, so that collecting is fast. Half of the usual value costs no time
// that could be measured, and a clip of hours full of sounds fits in 64 MiB.
const spareHeap = 50

func main() {
	debug.SetGCPercent(spareHeap)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
