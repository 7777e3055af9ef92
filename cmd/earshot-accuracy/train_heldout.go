package main

import (
	"context"
	"fmt"

	"earshot/dsp/known"
	"earshot/shutter"
	whole "earshot/shutter/hear/scene"
)

// calibration counts, of the firings said to be so with a probability from up to below,
// how many are.
type calibration struct {
	from, below float64
	said, right int
}

func calibrations() []calibration {
	return []calibration{{from: 0.5, below: 0.7}, {from: 0.7, below: 0.9}, {from: 0.9, below: 0.99}, {from: 0.99, below: 2}}
}

func (c calibration) name() string {
	if c.below > 1 {
		return fmt.Sprintf("%g and over", c.from)
	}
	return fmt.Sprintf("%g to %g", c.from, c.below)
}

// explainedBy is what a table makes of a lesson, held against the truth, and the
// probabilities of the firings found.
func (l *lesson) explainedBy(t *whole.Table) (*audition, []float64) {
	x := whole.ExplainBy(context.Background(), l.heard, t)
	var found []shutter.Firing
	var p []float64
	for _, f := range x.Firings {
		found = append(found, shutter.Firing{Open: x.Sounds[f.Open].At, Close: x.Sounds[f.Close].At, Closed: true, Edge: shutter.EdgeStart})
		p = append(p, f.P)
	}
	return newAudition(l.kind, l.name, l.loosely(), found, l.coded), p
}

// loosely is the truth with strokes as wide as the tolerance of an example asks for. What
// never closes is no matter of explaining.
func (l *lesson) loosely() known.Truth {
	truth := l.truth
	truth.Firings = nil
	by := l.tolerance() - window
	for _, f := range l.truth.Firings {
		f.Open = known.Stroke{Start: f.Open.Start - by, Stop: max(f.Open.Start, f.Open.Stop) + by}
		f.Close = known.Stroke{Start: f.Close.Start - by, Stop: max(f.Close.Start, f.Close.Stop) + by}
		f.Plain = f.Plain && f.Closes
		truth.Firings = append(truth.Firings, f)
	}
	return truth
}

// reportHeldOut tells how well the recordings of a generator are explained that the table
// was not fitted to.
func reportHeldOut(name string, lessons []*lesson, t *whole.Table) string {
	auditions := make([]*audition, len(lessons))
	probabilities := make([][]float64, len(lessons))
	_ = inParallel(len(lessons), func(i int) error {
		auditions[i], probabilities[i] = lessons[i].explainedBy(t)
		return nil
	})
	m := sumUp(name, auditions)
	g := grid{{"left out", "clips", "firings", "recall", "precision", "F1", "nothing fired: clips", "false firings", "in clips"},
		{name, fmt.Sprint(m.clips), fmt.Sprint(m.counts.references),
			fmt.Sprintf("%.4f", m.counts.recall()), fmt.Sprintf("%.4f", m.counts.precision()), fmt.Sprintf("%.4f", m.counts.f1()),
			fmt.Sprint(m.quiet), fmt.Sprint(m.alarms), fmt.Sprint(m.alarmed)}}
	return g.String() + "\n" + calibrated(calibrate(auditions, probabilities)).String()
}

// calibrate counts the firings found, but for those that need not be heard.
func calibrate(auditions []*audition, probabilities [][]float64) []calibration {
	all := calibrations()
	for i, a := range auditions {
		right := map[int]bool{}
		for _, f := range a.of {
			right[f] = true
		}
		for f, p := range probabilities[i] {
			for k := range all {
				c := &all[k]
				if a.aside[f] || p < c.from || p >= c.below {
					continue
				}
				c.said++
				if right[f] {
					c.right++
				}
			}
		}
	}
	return all
}

func calibrated(all []calibration) grid {
	g := grid{{"said to be one with p", "firings", "right", "right %"}}
	for _, c := range all {
		g = append(g, []string{c.name(), fmt.Sprint(c.said), fmt.Sprint(c.right), percent(c.right, c.said)})
	}
	return g
}
