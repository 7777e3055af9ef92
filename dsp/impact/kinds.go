package impact

import (
	"fmt"
	"strings"

	"earshot/dsp/known"
)

// kind is one kind of recording.
type kind struct {
	name string
	tune func(*plan)  // what it changes of what was drawn; nil: nothing
	play func(*scene) // what sounds where nothing is fired; nil: a shutter
}

// Kinds returns the names of the kinds of recordings. Those in which nothing is fired
// begin with "nothing: ".
func Kinds() []string {
	var names []string
	for _, k := range kinds() {
		names = append(names, k.name)
	}
	return names
}

// Make makes the recording of a kind that the seed draws.
func Make(name string, seed uint64) (known.Recording, error) {
	for _, k := range kinds() {
		if k.name == name {
			return k.make(seed), nil
		}
	}
	return known.Recording{}, fmt.Errorf("no kind of recording is called %q: it is one of %s",
		name, strings.Join(Kinds(), "; "))
}

// kinds returns all kinds.
func kinds() []kind {
	var all []kind
	for _, some := range [][]kind{ofShutters(), ofShops(), ofFaults(), ofPhones(), ofNothing()} {
		all = append(all, some...)
	}
	return all
}

// plan draws a plan for the kind.
func (k kind) plan(seed uint64) *plan {
	p := draw(seed, k.name)
	if k.tune != nil {
		k.tune(p)
	}
	return p
}

// make draws a recording.
func (k kind) make(seed uint64) known.Recording {
	return k.perform(k.plan(seed), seed)
}

// perform makes the recording that a plan describes.
func (k kind) perform(p *plan, seed uint64) known.Recording {
	s := &scene{dice: newDice(seed, "scene of "+k.name), rate: float64(p.rate), clock: p.clock}
	if k.play != nil {
		s.end = s.in(p.lasts[0], p.lasts[1])
		s.nothing(k.play)
	} else {
		p.shutter.on = shutters
		s.truth = known.Truth{
			Kind: p.shutter.kind, Told: p.told, Symptoms: p.symptoms,
		}
		s.sitting(p)
	}
	r := s.record(p)
	r.Name = k.name
	return r
}
