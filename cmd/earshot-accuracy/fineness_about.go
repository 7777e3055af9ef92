package main

const aboutFine = `The first columns are the standard deviation of a clip's errors of duration about their own
mean, which is what they add to a spread: its median and 95th percentile over the clips, in
ms and in stops at 1/30. Single picks are the same firings timed by the transients nearest
to the true onsets, each onset picked by itself without the others of its kind; no noise is
the same clips with the noise 90 dB under the click, timed as the program times them. The
bound is that of Cramér and Rao for the two sounds of each duration, 3 ms from the onset or
up to the end stop, in the very noise of the clip, as if they were known exactly (S. M. Kay,
1993; A. H. Quazi, 1981; from memory), and the last column the median of what is measured
over it.

Single picks have a long tail: where the start of the blades is weak they take another sound
of the same movement for it, up to 5 ms off. The bound holds for one sound repeated exactly.
Those of a shutter are not: from shot to shot the strengths and phases of what rings change,
and the blades rub differently, so that sounds laid over each other at their best are not
laid onset over onset, by some microseconds. Where a clip is told no better without its
noise, that is the limit, with what the method adds, and not the noise; so how far we are
over the bound falls as noise grows.
`
