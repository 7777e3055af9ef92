package main

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"math"
	"os"
	"slices"
	"strings"

	"earshot/dsp"
	"earshot/dsp/collage"
	"earshot/dsp/impact"
	"earshot/dsp/known"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/shutter"
)

// generator makes recordings whose truth is known. Generators share nothing with each
// other, so that what is made with one can be held against the others.
type generator struct {
	name    string
	missing []string // Debian packages that this machine lacks for it
	takes   func(purpose string, seed uint64, each int) ([]take, error)
}

// take is one recording that can be made.
type take struct {
	kind string // of recording
	name string // with its number among those of its kind
	make func() (performance, error)
}

// performance is a recording as hearing gets it, and what it must not know.
type performance struct {
	src   dsp.Source
	truth known.Truth
	told  shutter.Kind
	coded bool
}

// What recordings are made for: each purpose has seeds of its own.
const (
	toMeasure = "measure"
	toTrain   = "train"
)

// generators are all of them, the project's own first.
func generators() []generator {
	return []generator{
		{"synth", nil, synthTakes},
		{"impact", lacking(nil), func(purpose string, seed uint64, each int) ([]take, error) {
			return knownTakes("impact", impact.Kinds(), impact.Make, purpose, seed, each), nil
		}},
		{"collage", lacking(collage.Files()), collageTakes},
	}
}

// generatorCalled returns one by its name.
func generatorCalled(name string) (generator, error) {
	var names []string
	for _, g := range generators() {
		if g.name == name {
			return g, nil
		}
		names = append(names, g.name)
	}
	return generator{}, fmt.Errorf("no generator is called %q; there are: %s", name, strings.Join(names, ", "))
}

// all are the takes of a generator, for which nothing may be missing.
func (g generator) all(purpose string, seed uint64, each int) ([]take, error) {
	if len(g.missing) > 0 {
		return nil, fmt.Errorf("%s needs Debian's packages %s", g.name, strings.Join(g.missing, ", "))
	}
	return g.takes(purpose, seed, each)
}

// synthTakes are some clips of every condition, but for shutters told to be of another
// kind than they are.
func synthTakes(purpose string, seed uint64, each int) ([]take, error) {
	if purpose != toMeasure {
		seed = seedOf(purpose, seed)
	}
	var all []take
	for _, c := range conditions() {
		for clip := range min(each, c.clips) {
			s := c.recording(seed, clip)
			if s.misheard() {
				continue
			}
			all = append(all, take{c.name, fmt.Sprintf("%s, %d", c.name, clip), func() (performance, error) {
				src, truth, err := s.Clip()
				return performance{src, knownTruth(s, truth), s.kind, s.via != nil}, err
			}})
		}
	}
	return all, nil
}

// knownTruth is what is known of a synthesised recording, in the words that all
// generators share, as far as anything here asks for it. All of it must be heard.
func knownTruth(s scene, truth synth.Truth) known.Truth {
	var k known.Truth
	if len(truth.Firings) > 0 {
		k.Kind = map[synth.Kind]known.Kind{synth.Leaf: known.Leaf, synth.Reflex: known.Reflex, synth.FocalPlane: known.FocalPlane}[s.Take.Shutter.Kind]
	}
	for _, f := range truth.Firings {
		k.Firings = append(k.Firings, known.Firing{Mark: f.Label, Nominal: f.Nominal, Plain: true,
			Open: known.Stroke(f.Open), Close: known.Stroke(f.Close), Closes: f.Closes})
	}
	for _, x := range truth.Sounds {
		k.Others = append(k.Others, known.Other{Kind: string(x.Kind), Start: x.Start, End: x.End})
	}
	return k
}

// collageTakes decodes the sounds that collage needs, and keeps them.
func collageTakes(purpose string, seed uint64, each int) ([]take, error) {
	files := collage.Files()
	sounds := make(map[string][]float64, len(files))
	decoded := make([][]float64, len(files))
	if err := inParallel(len(files), func(i int) (err error) {
		decoded[i], err = decodeMixed(files[i])
		return err
	}); err != nil {
		return nil, err
	}
	for i, f := range files {
		sounds[f] = decoded[i]
	}
	library, err := collage.Open(func(path string) ([]float64, int, error) { return sounds[path], recordedRate, nil })
	if err != nil {
		return nil, err
	}
	return knownTakes("collage", collage.Kinds(), library.Make, purpose, seed, each), nil
}

// knownTakes are some recordings of every kind.
func knownTakes(generator string, kinds []string, make func(kind string, seed uint64) (known.Recording, error), purpose string, seed uint64, each int) []take {
	var all []take
	for _, kind := range kinds {
		for i := range each {
			of := seedOf(purpose, seed, generator, kind, i)
			all = append(all, take{kind, fmt.Sprintf("%s, %d", kind, i), func() (performance, error) {
				r, err := make(kind, of)
				if err != nil {
					return performance{}, err
				}
				return perform(r)
			}})
		}
	}
	return all
}

// seedOf is a seed of what it is for, so large that no test has chosen it by hand.
func seedOf(purpose string, of ...any) uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s/%v", purpose, of)
	return h.Sum64()
}

// perform plays a recording as its file would hold it.
func perform(r known.Recording) (performance, error) {
	p := performance{src: inWAV(r), truth: r.Truth, told: shutter.Leaf, coded: r.Coding.Encoder != ""}
	if r.Truth.Kind == known.FocalPlane {
		p.told = shutter.FocalPlane
	}
	if !p.coded {
		return p, nil
	}
	c := codec{r.Name, r.Coding.Encoder, r.Coding.Suffix, r.Coding.Kbits, r.Coding.Rate}
	wav, err := c.pass(p.src)
	if err != nil {
		return p, err
	}
	p.src, err = wavfile.NewReader(bytes.NewReader(wav), int64(len(wav)), r.Name)
	return p, err
}

// inWAV is a recording in 16 bits.
func inWAV(r known.Recording) *dsp.Held {
	n := len(r.Channels)
	h := &dsp.Held{Layout: dsp.Format{Rate: r.Rate, Channels: n}, Frames: make([]float64, n*len(r.Channels[0]))}
	for c, samples := range r.Channels {
		for i, x := range samples {
			h.Frames[i*n+c] = min(max(math.Round(x*32768), -32768), 32767) / 32768
		}
	}
	return h
}

// lacking are the Debian packages that this machine lacks: those of the files that are
// not there, and ffmpeg.
func lacking(files []string) (pkgs []string) {
	if !hasFFmpeg() {
		pkgs = append(pkgs, ffmpegName)
	}
	for _, f := range files {
		if _, err := os.Stat(f); err == nil {
			continue
		}
		if pkg := packageOf(f); !slices.Contains(pkgs, pkg) {
			pkgs = append(pkgs, pkg)
		}
	}
	return pkgs
}

// packageOf is the Debian package that a file of collage comes from; the file itself
// where that is not known.
func packageOf(file string) string {
	for _, p := range [][2]string{
		{"sounds/freedesktop/", "sound-theme-freedesktop"}, {"buckle/", "bucklespring-data"}, {"sonic-pi/", "sonic-pi-samples"},
		{"games/minetest/", "minetest-data"}, {"lmms/", "lmms-common"}, {"games/pokerth/", "pokerth-data"},
		{"tuxpaint/", "tuxpaint-data"}, {"sounds/sound-icons/", "sound-icons"},
		{"asterisk/sounds/en", "asterisk-core-sounds-en-wav"}, {"asterisk/sounds/es", "asterisk-core-sounds-es-wav"},
		{"asterisk/sounds/fr", "asterisk-core-sounds-fr-wav"}, {"asterisk/sounds/it", "asterisk-core-sounds-it-wav"},
		{"asterisk/sounds/ru", "asterisk-core-sounds-ru-wav"}, {"pocketsphinx/", "pocketsphinx-testdata"},
	} {
		if strings.HasPrefix(file, "/usr/share/"+p[0]) {
			return p[1]
		}
	}
	return file
}
