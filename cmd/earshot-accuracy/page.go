package main

import (
	"fmt"
	"strings"
)

// page is the whole report of a run, in Markdown.
func (r *results) page(seed uint64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# How well firings are found and timed\n\n")
	fmt.Fprintf(&b, "Written by `go run ./cmd/earshot-accuracy -seed %d` (`make accuracy`); the same seed gives the same page.\n\n", seed)
	b.WriteString(aboutRecordings)
	b.WriteString(aboutAbsent(absences()))
	b.WriteString("\n## Targets\n\n" + r.reached().String())
	b.WriteString("\n## Held to the targets\n\n" + aboutFound)
	b.WriteString("\n" + found(append(r.of(core), r.core)).String())
	b.WriteString("\nBy marked speed, all of these conditions together:\n\n" + r.bySpeed().String())
	b.WriteString("\n## From times to means\n\n" + aboutMeans)
	b.WriteString("\n" + judged(append(r.of(core), r.core)).String())
	if len(fineRows(r.of(core))) > 0 {
		b.WriteString("\n## How finely firings are told from each other\n\n" + r.finePage())
	}
	b.WriteString("\n## Where nothing was fired\n\n" + aboutAlarms)
	b.WriteString("\n" + alarmed(r.of(quiet)).String())
	b.WriteString("\n## Harder than asked for\n\n" + aboutBeyond)
	b.WriteString("\n" + found(r.of(beyond)).String() + "\n" + judged(r.of(beyond)).String())
	if len(r.generators) > 0 {
		b.WriteString("\n## By several generators\n\n" + generatorsPage(r.generators))
	}
	b.WriteString("\n## Beside other ways of finding onsets\n\n" + r.besidePage())
	return b.String()
}

const aboutRecordings = `Every clip, but for those of other generators in a section of their own, is synthesised
(package ` + "`dsp/synth`" + `, which shares nothing with detection), so the truth is known exactly, and is heard once, told nothing but the sound. Each holds a
different shutter in a different take. Unless the condition says otherwise: a leaf
shutter whose blades start sharply, three firings at each speed from 1 to 1/30 of the
modern series, click over noise 40 dB in room noise, no echo; wound by ratchet, by a
single stroke, or not, in turn; 48 or 44.1 kHz in turn, 16 bits; the recorder's clock off
within ±100 ppm, which the truth follows. Click over noise is the RMS of the loudest 2 ms
of a click over that of the noise, both above 500 Hz.
`

const aboutFound = `A firing found is right if both its onsets lie within ±5 ms of a true firing's, one found
for one true, as many as can be paired; F1 is stated at ±1 and ±2 ms as well. What an
onset means follows the firing: one timed by the start of the blades is held against the
true starts, one timed by the end stop against the true stops. Errors are those of the
durations of right firings. The last column is the share of errors within 1.96 times the
standard uncertainty stated with each duration: 95 % if it is stated well.
`

const aboutMeans = `The same firings, told the speeds in the order fired, without and with how many were
fired at each: the share laid at a wrong speed without saying that it is in doubt, and the
share in doubt. Then judged (with counts), and each mean deviation that is given held
against two truths:

- within U95: of the deviation that the shutter was drawn with, from which each firing
  strays by chance. This is what U95 is for; 95 % is right.
- within the onset term: of the mean of the very firings that were made. Of U95 only the
  onset term speaks of that; 95 % is right, more if onsets are surer than they say.

U95 is taken without its edge term in both: that one covers how far metal hitting metal
lies from half the light, and synthesis knows only when metal moves. With it U95 would
hold nearly always, which would show nothing.
`

const aboutAlarms = `Nothing is fired in these, in ten clips of a minute each, with other sounds in each. Noise
lies 30 dB below what a click would have, knocks and the other sounds are as loud as a
click. Of those recorded more is said below.
`

const aboutBeyond = `Held to the targets only together with all other conditions; each by itself is measured.

Codecs, click over noise 30 dB: the clip is coded and decoded by ffmpeg, which takes out
the codec's delay by what the file says of it. A codec spreads what it makes of a click to
before it, so that onsets are heard early; one shift for each clip, the median over its
onsets, is taken out before firings are held right or wrong. Where openings are heard
earlier than closings, or later, the errors of the durations show it.

Recorded, click over noise 30 dB: sounds recorded by others are mixed in, from 0.3 s after
each closing until 0.3 to 0.45 s before the next opening, where they are cut. The loudest
2 ms of each lie within 3 dB of a level: that of a click for doors and knocks and for all
that is alone, 3 dB less for speech, 6 dB less for typing. No sound is played twice at the
same speed. They come from Debian's packages: speech from asterisk-core-sounds-en-wav
(Allison Smith, CC-BY-SA-3.0), pocketsphinx-testdata (Carnegie Mellon University and Alpha
Cephei, BSD-2-Clause) and sound-theme-freedesktop (the ALSA developers, GPL-2+); the keys
of a keyboard with buckling springs from bucklespring-data (Ico Doornekampt, GPL-2+);
doors, chests, things put down or broken and steps from minetest-data (CC-BY-SA-3.0,
CC-BY-3.0 and CC0-1.0, by many hands).
`
