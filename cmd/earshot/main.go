// Command earshot listens to recordings of a mechanical leaf shutter being fired and
// says how long it stayed open, how far that is from the marked speed, whether it
// repeats, and whether it wants service. "earshot help" tells its commands.
package main

import (
	"os"
	"runtime/debug"
)

// spareHeap is how much memory may lie unused before it is collected, in percent of
// what is in use. What is kept of a clip is small and collected fast, so that half of
// the usual costs no time to be measured, and hours of packed clip fit in 64 MiB.
const spareHeap = 50

func main() {
	debug.SetGCPercent(spareHeap)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
