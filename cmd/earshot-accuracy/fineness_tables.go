package main

import (
	"fmt"
	"slices"
)

// The target for differences from shot to shot is finestSpread, s, if the click is finestOver, dB,
// over the noise.
const (
	finestSpread = 0.01e-3
	finestOver   = 30
)

// shortest is the time, s, at which fineness is stated in stops: the fastest speed fired, where it
// counts most.
const shortest = 1.0 / 30

// fineBy is a row of clips.
type fineBy struct {
	name  string
	clips []fineness
}

// of is a quantile over the clips, s.
func (f fineBy) of(share float64, what func(fineness) float64) float64 {
	x := make([]float64, len(f.clips))
	for i, c := range f.clips {
		x[i] = what(c)
	}
	slices.Sort(x)
	return quantile(x, share)
}

func alignedOf(f fineness) float64 { return f.aligned }
func singleOf(f fineness) float64  { return f.single }
func cleanOf(f fineness) float64   { return f.clean }
func boundOf(f fineness) float64   { return f.bound }

// fineRows are the conditions whose fineness was measured, and then all clips with
// the same click over noise together.
func fineRows(some []*tally) []fineBy {
	var rows, levels []fineBy
	for _, t := range some {
		if len(t.fine) == 0 {
			continue
		}
		rows = append(rows, fineBy{t.name, t.fine})
		over := t.fine[0].over
		name := fmt.Sprintf("all at %g dB", over)
		i := slices.IndexFunc(levels, func(l fineBy) bool { return l.name == name })
		if i < 0 {
			i = len(levels)
			levels = append(levels, fineBy{name: name})
		}
		levels[i].clips = append(levels[i].clips, t.fine...)
	}
	return append(rows, levels...)
}

// fine is the table of fineness, empty if that was not measured.
func fine(some []*tally) string {
	g := grid{{"condition", "clips", "median ms", "95th ms", "median stops at 1/30", "95th stops", "single picks: median ms", "95th ms", "no noise: median ms", "95th ms", "bound: median ms", "over the bound"}}
	for _, f := range fineRows(some) {
		ms := func(share float64, what func(fineness) float64) string {
			return fmt.Sprintf("%.4f", 1e3*f.of(share, what))
		}
		stops := func(share float64) string {
			return fmt.Sprintf("%.5f", f.of(share, alignedOf)/shortest*stopsPerPart)
		}
		g = append(g, []string{
			f.name, fmt.Sprint(len(f.clips)), ms(0.5, alignedOf), ms(0.95, alignedOf), stops(0.5), stops(0.95),
			ms(0.5, singleOf), ms(0.95, singleOf), ms(0.5, cleanOf), ms(0.95, cleanOf), fmt.Sprintf("%.5f", 1e3*f.of(0.5, boundOf)),
			fmt.Sprintf("%.1f×", f.of(0.5, func(f fineness) float64 { return f.aligned / f.bound })),
		})
	}
	if len(g) == 1 {
		return ""
	}
	return g.String()
}

// finePage is the section of the page, without its heading.
func (r *results) finePage() string {
	return aboutFine + "\n" + fine(r.of(core)) + "\n" + fineReached(fineRows(r.of(core)))
}

// fineReached says whether what is wanted is met, by the clips at finestOver.
func fineReached(rows []fineBy) string {
	name := fmt.Sprintf("all at %d dB", finestOver)
	i := slices.IndexFunc(rows, func(f fineBy) bool { return f.name == name })
	if i < 0 {
		return ""
	}
	f, within := rows[i], 0
	for _, c := range f.clips {
		if c.aligned <= finestSpread {
			within++
		}
	}
	met := "met"
	if f.of(0.95, alignedOf) > finestSpread {
		met = "**not met**"
	}
	return fmt.Sprintf("Wanted at %d dB: %g ms or better, at the 95th percentile of the clips. Measured: %.4f ms, in the\nmedian clip %.4f ms; %d of %d clips are within. It is %s.\n",
		finestOver, 1e3*finestSpread, 1e3*f.of(0.95, alignedOf), 1e3*f.of(0.5, alignedOf), within, len(f.clips), met)
}
