package collage

import (
	"fmt"
	"strings"
)

// Library holds the recorded sounds that clips are pieced together from. It isn't changed
// by making clips, so that several may be made at once.
type Library struct {
	sounds  map[role][]sound
	spectra [][]float64 // mean amplitudes of steady noise, bins of 48 kHz / 2048 each
}

// fewest clean clicks of which clips can differ enough.
const fewest = 40

// Open loads every file by load, which returns one channel, full scale ±1, and its sample
// rate in Hz. An error names the Debian packages that are wanted.
func Open(load func(path string) (samples []float64, rate int, err error)) (*Library, error) {
	loaded := map[string]sound{}
	for _, file := range Files() {
		x, rate, err := load(file)
		if err == nil && (len(x) == 0 || rate <= 0) {
			err = fmt.Errorf("no sound in it")
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w\ninstall Debian's packages %s", file, err, strings.Join(Packages(), " "))
		}
		loaded[file] = sound{x, float64(rate)}
	}
	l := &Library{sounds: map[role][]sound{}}
	for _, s := range sources() {
		for _, file := range s.files {
			l.sounds[s.role] = append(l.sounds[s.role], loaded[file])
		}
	}
	return l, l.sort()
}

// sort keeps the clicks that are clean, adds those within the camera's sound, and takes
// the spectra of the noises.
func (l *Library) sort() error {
	var kept []sound
	for _, s := range append(l.sounds[click], clicksWithin(l.sounds[camera][0])...) {
		if clean(s) {
			kept = append(kept, s)
		}
	}
	if len(kept) < fewest {
		return fmt.Errorf("%d of the clicks are clean, at least %d are needed", len(kept), fewest)
	}
	l.sounds[click] = kept
	for _, s := range l.sounds[hiss] {
		l.spectra = append(l.spectra, spectrum(s))
	}
	return nil
}

// clicksWithin are the clicks inside the sound of a camera, from before each to after it, s.
func clicksWithin(s sound) []sound {
	var out []sound
	for _, span := range [][2]float64{{0.107, 0.145}, {0.146, 0.190}, {0.195, 0.235}} {
		out = append(out, sound{s.x[int(span[0]*s.rate):int(span[1]*s.rate)], s.rate})
	}
	return out
}
