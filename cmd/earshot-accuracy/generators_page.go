package main

import (
	"fmt"
	"strings"
)

// generatorsPage is what a page says of recordings by several generators.
func generatorsPage(all []*measured) string {
	return aboutGenerators + aboutAbsent(absentGenerators(generators())) + "\n" + generated(all).String() +
		"\n" + aboutWorst + "\n" + worstKinds(all).String()
}

// absentGenerators are the rows that this machine can't run.
func absentGenerators(all []generator) (absent []absence) {
	for _, g := range all {
		if len(g.missing) > 0 {
			absent = append(absent, absence{"the row " + g.name, g.missing})
		}
	}
	return absent
}

// generated is the table of how well the recordings of each generator are heard.
func generated(all []*measured) grid {
	g := grid{{"generator", "clips", "firings", "recall", "precision", "F1", "median ms", "95th ms", "within 1.96·U %", "surely wrong", "nothing fired: clips", "false firings", "in clips"}}
	for _, m := range all {
		ms := func(share float64) string {
			if len(m.errors) == 0 {
				return none
			}
			return fmt.Sprintf("%.3f", 1e3*sizeOf(m.errors, share))
		}
		g = append(g, []string{
			m.name, fmt.Sprint(m.clips), fmt.Sprint(m.counts.references),
			fmt.Sprintf("%.4f", m.counts.recall()), fmt.Sprintf("%.4f", m.counts.precision()), fmt.Sprintf("%.4f", m.counts.f1()),
			ms(0.5), ms(0.95), percent(m.within, len(m.errors)), fmt.Sprint(m.wrong),
			fmt.Sprint(m.quiet), fmt.Sprint(m.alarms), fmt.Sprint(m.alarmed),
		})
	}
	return g
}

// worstKinds is the table of the kinds of recordings with the most mistakes.
func worstKinds(all []*measured) grid {
	g := grid{{"kind of recording", "generator", "firings", "missed", "false", "surely wrong"}}
	for _, m := range all {
		for _, k := range m.worst() {
			g = append(g, []string{strings.ReplaceAll(k.kind, "|", "/"), m.name,
				fmt.Sprint(k.firings), fmt.Sprint(k.missed), fmt.Sprint(k.false), fmt.Sprint(k.wrong)})
		}
	}
	return g
}

const aboutGenerators = `Three generators make recordings, each from an idea of its own of what a shutter is, and
none knows of another:

- synth: the project's own synthesis, all clips of the other tables but those told to be
  of another kind of shutter.
- impact: contacts press on bodies that ring, in rooms, before phones (` + "`dsp/impact`" + `).
- collage: real sounds, recorded, pieced together (` + "`dsp/collage`" + `).

What counts is the generator that hearing was not made with: what hearing does well on
recordings that its constants were chosen by, or its weights fitted to, shows little of
what it will do on a stranger's table. Of impact and collage nothing is held to a target.

Recall is of the firings that must be heard: whole, of the shutter that was told of, and
within the reach of hearing. A firing found that is one of the others is neither right nor
false. One is right if its opening and its closing lie within 5 ms of the strokes of the
true ones, which last from the first sound of a movement to that of its stop; one that
never closes must be found so. Precision counts what is found in clips without a firing
too. Errors are of durations, from start to start or from stop to stop, as the firing was
timed; surely wrong is one off by more than 3 times the stated standard uncertainty and by
more than 1 ms. After a codec one shift for each clip is taken out, as elsewhere here. The
seeds are no test's.
`

const aboutWorst = `The five kinds of recordings of each generator with the most mistakes; fewer where no others
have one:
`
