package collage

import (
	"fmt"

	"earshot/dsp/known"
)

// kind is a kind of recording. Where nothing is fired, noises plays what there is instead.
type kind struct {
	name   string
	scene  scene
	drawn  func(d draw) scene // where a clip's scene is drawn
	noises func(t *take)
}

// with is a plain scene of a shutter, changed.
func with(name string, shutter known.Kind, change func(s *scene)) kind {
	k := kind{name: name, scene: plain(shutter)}
	if change != nil {
		change(&k.scene)
	}
	return k
}

func all() []kind {
	kinds := shutters()
	kinds = append(kinds, surrounded()...)
	kinds = append(kinds, ailing()...)
	kinds = append(kinds, phoned()...)
	kinds = append(kinds, anything()...)
	return append(kinds, nothing()...)
}

// Kinds are the names of all kinds of recordings. Those in which nothing is fired begin
// with "nothing: ".
func Kinds() []string {
	var names []string
	for _, k := range all() {
		names = append(names, k.name)
	}
	return names
}

// Make is a recording of a kind, 30 to 75 s long.
func (l *Library) Make(name string, seed uint64) (known.Recording, error) {
	for _, k := range all() {
		if k.name == name {
			return l.make(k, newDraw(name, seed)), nil
		}
	}
	return known.Recording{}, fmt.Errorf("no kind of recording is named %q", name)
}

func (l *Library) make(k kind, d draw) known.Recording {
	if k.drawn != nil {
		k.scene = k.drawn(d)
	}
	t, p, truth := l.perform(k, d)
	snr := t.between(k.scene.quiet, k.scene.loud)
	if k.noises != nil {
		snr = t.between(15, 50)
	}
	return t.finish(k, p, truth, snr)
}

// perform plays all that happens, and says what phone is there.
func (l *Library) perform(k kind, d draw) (*take, phone, known.Truth) {
	p := k.scene.phone.drawn(d)
	t := l.take(d, float64(p.rate))
	if k.noises == nil {
		return t, p, t.sitting(k.scene)
	}
	t.upTo(int(t.between(40, 60) * t.rate))
	k.noises(t)
	return t, p, known.Truth{}
}
