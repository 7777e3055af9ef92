package main

import (
	"slices"

	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

// diagnosis counts what shutters with one ailment were found to have.
type diagnosis struct {
	ailment
	checked int
	named   map[judge.SymptomName]int // shutters given the name, at any speed
	clear   int                       // shutters given no name at all
	missed  []int                     // which were not given the ailment's, nor are healthy
	beats   beatcount                 // of those heard
}

// symptomsOf are the names given, each once, in the order of their kind.
func symptomsOf(c judge.Check) []judge.SymptomName {
	given := map[judge.SymptomName]bool{}
	for _, s := range c.Symptoms {
		given[s.Name] = true
	}
	for _, s := range c.Speeds {
		for _, y := range s.Symptoms {
			given[y.Name] = true
		}
	}
	return slices.DeleteFunc(symptomNames(), func(n judge.SymptomName) bool { return !given[n] })
}

func symptomNames() []judge.SymptomName {
	return []judge.SymptomName{judge.HangsOpen, judge.ClosesEarly, judge.NeedsExercise, judge.Erratic,
		judge.Hesitates, judge.LazyBlades, judge.SlowEscapement, judge.UnevenSteps}
}

// count counts the names given to the n-th shutter.
func (d *diagnosis) count(n int, given []judge.SymptomName) {
	if d.named == nil {
		d.named = map[judge.SymptomName]int{}
	}
	d.checked++
	for _, name := range given {
		d.named[name]++
	}
	if len(given) == 0 {
		d.clear++
	}
	if d.symptom != "" && !slices.Contains(given, d.symptom) {
		d.missed = append(d.missed, n)
	}
}

// diagnose hears and judges every shutter with the ailment, told the speeds.
func (a ailment) diagnose(seed uint64) (diagnosis, error) {
	given, beats := make([][]judge.SymptomName, a.shutters), make([]beatcount, a.shutters)
	err := inParallel(a.shutters, func(n int) error {
		r := a.recording(seed, n)
		clip, err := r.Clip()
		if err != nil {
			return err
		}
		_, firings, err := detect(holding(clip), shutter.Leaf)
		if err != nil {
			return err
		}
		check := judge.Judge(firings, assign.Lay(firings, steps(r.Take.Settings, true)), judge.Standard())
		given[n] = symptomsOf(check)
		beats[n].add(r.Take.Shutter, clip.Truth.Firings, firings)
		return nil
	})
	d := diagnosis{ailment: a}
	for n, names := range given {
		d.count(n, names)
		d.beats.merge(beats[n])
	}
	return d, err
}
