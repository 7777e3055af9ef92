package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"sync"
)

// recordedKind is a kind of sound of which recordings are to be had.
type recordedKind struct {
	name  string
	from  []debianSounds
	level float64 // dB of each one's loudest 2 ms against the click, between firings
	play  pace
	load  func() ([]recordedSound, error)
}

// debianSounds are files of a Debian package. None of them is part of this project.
type debianSounds struct{ pkg, glob string }

// recordedSound is one of them, decoded.
type recordedSound struct {
	name    string
	samples []float64 // at recordedRate, the RMS of its loudest 2 ms 1
}

// recordedKinds are all kinds, in the order of their rows.
//
// Speech is a woman's, read to telephones (asterisk-core-sounds-en-wav: Allison Smith,
// CC-BY-SA-3.0), several people's (pocketsphinx-testdata: Carnegie Mellon University and
// Alpha Cephei, BSD-2-Clause) and, wider in its band, the names of loudspeakers
// (sound-theme-freedesktop: the ALSA developers, GPL-2+). The keyboard is one of
// buckling springs, each key heard going down and coming up (bucklespring-data: Ico
// Doornekampt, GPL-2+). Doors, gates and chests opened and closed, things put down and
// broken, and steps on wood and stone are from minetest-data (its doors CC-BY-3.0 and
// CC0-1.0, the others CC-BY-SA-3.0, by many hands).
func recordedKinds() []*recordedKind {
	const game = "/usr/share/games/minetest/games/minetest_game/mods/"
	kinds := []*recordedKind{
		{name: "speech", level: -3, play: oneByOne(0.1, 0.6), from: []debianSounds{
			{"asterisk-core-sounds-en-wav", "/usr/share/asterisk/sounds/en_US_f_Allison/demo-*.wav"},
			{"pocketsphinx-testdata", "/usr/share/pocketsphinx/test/data/*/*.wav"},
			{"sound-theme-freedesktop", "/usr/share/sounds/freedesktop/stereo/audio-channel-*.oga"},
		}},
		{name: "typing", level: -6, play: typed, from: []debianSounds{
			{"bucklespring-data", "/usr/share/buckle/wav/1?-[01].wav"},
		}},
		{name: "doors and knocks", level: 0, play: oneByOne(0.2, 1.5), from: []debianSounds{
			{"minetest-data", game + "doors/sounds/*.ogg"},
			{"minetest-data", game + "default/sounds/default_chest_*.ogg"},
			{"minetest-data", game + "default/sounds/default_place_node*.ogg"},
			{"minetest-data", game + "default/sounds/default_tool_breaks*.ogg"},
			{"minetest-data", game + "default/sounds/default_hard_footstep*.ogg"},
			{"minetest-data", game + "default/sounds/default_wood_footstep*.ogg"},
		}},
	}
	for _, k := range kinds {
		k.load = sync.OnceValues(k.decodeAll)
	}
	return kinds
}

// missing are the packages that this machine lacks for it.
func (k *recordedKind) missing() []string {
	var pkgs []string
	if !hasFFmpeg() {
		pkgs = append(pkgs, ffmpegName)
	}
	for _, d := range k.from {
		if len(d.files()) == 0 && !slices.Contains(pkgs, d.pkg) {
			pkgs = append(pkgs, d.pkg)
		}
	}
	return pkgs
}

// files are the paths, in the order of their names.
func (d debianSounds) files() []string {
	paths, err := filepath.Glob(d.glob)
	if err != nil {
		panic("earshot-accuracy: " + d.glob + " is no pattern")
	}
	return paths
}

func (k *recordedKind) decodeAll() ([]recordedSound, error) {
	var sounds []recordedSound
	for _, d := range k.from {
		for _, path := range d.files() {
			x, err := decode(path)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", path, err)
			}
			if len(x) < 2 {
				return nil, fmt.Errorf("%s: holds no sound", path)
			}
			normalise(x)
			sounds = append(sounds, recordedSound{filepath.Base(path), x})
		}
	}
	return sounds, nil
}

// normalise brings x to an RMS of 1 in its loudest 2 ms, if it is not silent.
func normalise(x []float64) {
	if most := math.Sqrt(loudest(x)); most > 0 {
		for i := range x {
			x[i] /= most
		}
	}
}

// pace plays sounds one after another until a time, s. It calls put with each and
// when it begins, and put returns when it ends.
type pace func(rnd *rand.Rand, sounds []recordedSound, from, to float64, put func(s recordedSound, at float64) float64)

// oneByOne lets every sound end, with a pause of least to most s after it. No sound is repeated
// until all have been played.
func oneByOne(least, most float64) pace {
	return func(rnd *rand.Rand, sounds []recordedSound, from, to float64, put func(recordedSound, float64) float64) {
		order := rnd.Perm(len(sounds))
		for i, at := 0, from; at < to; i++ {
			at = put(sounds[order[i%len(order)]], at) + least + (most-least)*rnd.Float64()
		}
	}
}

// typed strikes keys, each of which has the sound of coming up before that of going
// down: a key every 0.12 to 0.3 s, held for 0.06 to 0.11 s, as a fast and a slow typist
// do (from memory).
func typed(rnd *rand.Rand, sounds []recordedSound, from, to float64, put func(recordedSound, float64) float64) {
	for at := from; at < to; {
		up := 2 * rnd.IntN(len(sounds)/2)
		put(sounds[up+1], at)
		at += 0.06 + 0.05*rnd.Float64()
		if at < to {
			put(sounds[up], at)
		}
		at += 0.06 + 0.13*rnd.Float64()
	}
}
