// Command earshot-accuracy measures how well firings are found and timed, over
// seeded recordings whose truth is known, told nothing but the sound. It prints
// what it found as one page, writes the same page to docs/accuracy.md, and fails
// where a stated target is missed.
//
// The recordings come from earshot/dsp/synth, which knows nothing of detection;
// the conditions are one table, a line each. Some go through a codec and some have
// recorded sounds in them: what this machine lacks for that is left out, and the page
// says so. Two other ways of finding onsets are set
// beside this program's; where aubioonset is not installed its columns stay empty.
// Equal seeds give equal pages.
//
// With -sources it runs the tests that hold figures against the outside instead, and
// writes what agreed (package earshot/dsp/outside).
//
// Recordings by generators that share nothing with that synthesis, dsp/impact and
// dsp/collage, are heard as well, each by itself. With -train the weights by which a clip
// is explained (package earshot/shutter/hear/scene) are fitted to recordings of all three,
// at other seeds; with -without one of them is left out, and held against what the others
// taught.
//
// To see what went wrong in one condition, and hear it:
//
//	earshot-accuracy -condition "white noise, 18 dB" -wav /tmp/clips
//
// or with one generator:
//
//	earshot-accuracy -generator impact
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }
