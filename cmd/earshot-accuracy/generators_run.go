package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
)

// measured is how well the recordings of one generator are heard.
type measured struct {
	name   string
	clips  int
	counts count
	errors []float64 // of durations, s
	within int       // of them within 1.96 times the stated standard uncertainty
	wrong  int       // of them surely wrong

	quiet, alarmed, alarms int // clips with nothing to time; those in which a firing was found; these firings

	kinds []*mistakes // in the order they are made
}

// mistakes are those in the recordings of one kind.
type mistakes struct {
	kind                 string
	firings              int
	missed, false, wrong int
}

func (m *mistakes) all() int { return m.missed + m.false + m.wrong }

// tryOut makes the takes, on all processors, and hears them.
func tryOut(takes []take) ([]*audition, error) {
	trials := make([]*audition, len(takes))
	err := inParallel(len(takes), func(i int) error {
		t := takes[i]
		p, err := t.make()
		if err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		_, found, err := detect(p.src, p.told)
		if err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		trials[i] = newAudition(t.kind, t.name, p.truth, found, p.coded)
		return nil
	})
	return trials, err
}

// heardAlready are auditions of synthesised clips that have been heard.
func heardAlready(outcomes []*outcome) (trials []*audition) {
	for _, o := range outcomes {
		if !o.recording.misheard() {
			trials = append(trials, newAudition(o.condition.name, fmt.Sprintf("%s, %d", o.condition.name, o.clip), knownTruth(o.recording, o.truth), o.found, false))
		}
	}
	return trials
}

// measureGenerators measures every generator that this machine has all for. The clips of
// the project's own have been heard.
func measureGenerators(outcomes []*outcome, seed uint64, each int) ([]*measured, error) {
	var all []*measured
	for i, g := range generators() {
		switch {
		case i == 0:
			all = append(all, sumUp(g.name, heardAlready(outcomes)))
			continue
		case len(g.missing) > 0:
			continue
		}
		trials, err := tryAll(g, seed, each)
		if err != nil {
			return nil, err
		}
		all = append(all, sumUp(g.name, trials))
	}
	return all, nil
}

func tryAll(g generator, seed uint64, each int) ([]*audition, error) {
	takes, err := g.all(toMeasure, seed, each)
	if err != nil {
		return nil, err
	}
	return tryOut(takes)
}

// writeGenerator measures one generator and lists what went wrong.
func writeGenerator(o options, w io.Writer) error {
	g, err := generatorCalled(o.generator)
	if err != nil {
		return err
	}
	trials, err := tryAll(g, o.seed, max(o.each, 1))
	if err != nil {
		return err
	}
	for _, t := range trials {
		io.WriteString(w, t.explain())
	}
	m := sumUp(g.name, trials)
	_, err = io.WriteString(w, "\n"+generated([]*measured{m}).String()+"\n"+worstKinds([]*measured{m}).String())
	return err
}

func sumUp(name string, trials []*audition) *measured {
	m := &measured{name: name}
	of := map[string]*mistakes{}
	for _, t := range trials {
		if of[t.kind] == nil {
			of[t.kind] = &mistakes{kind: t.kind}
			m.kinds = append(m.kinds, of[t.kind])
		}
		m.add(t, of[t.kind])
	}
	return m
}

func (m *measured) add(t *audition, k *mistakes) {
	n := t.count()
	m.clips++
	m.counts.add(n)
	k.firings += n.references
	k.missed += n.references - n.right
	k.false += n.estimates - n.right
	for _, x := range t.timings() {
		m.errors = append(m.errors, x.error)
		if math.Abs(x.error) <= 1.96*x.u {
			m.within++
		}
		if x.surelyWrong() {
			m.wrong++
			k.wrong++
		}
	}
	if len(t.truth.Firings) > 0 {
		return
	}
	m.quiet++
	m.alarms += len(t.found)
	if len(t.found) > 0 {
		m.alarmed++
	}
}

// worstOf is how many kinds are named.
const worstOf = 5

// worst are the kinds with the most mistakes, worst first, none without one.
func (m *measured) worst() []*mistakes {
	all := slices.DeleteFunc(slices.Clone(m.kinds), func(k *mistakes) bool { return k.all() == 0 })
	slices.SortStableFunc(all, func(a, b *mistakes) int { return cmp.Compare(b.all(), a.all()) })
	return all[:min(len(all), worstOf)]
}
