package main

import (
	"fmt"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"earshot/report"
	"earshot/report/words"
	"earshot/report/write"
	"earshot/shutter"
	"earshot/shutter/assign"
	"earshot/shutter/judge"
)

func newSpeeds(a app) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "speeds",
		Short: "List the marks known and how far sound can judge them",
		Long: `speeds lists the marks of the modern and the older series, the exact time behind each,
and how sure sound can be of it at best: three firings exactly on the mark, alike to
the sample. What is left then is that sound tells when metal hits metal, not when half
the light is through, and the recorder's clock.`,
		Example: "  earshot speeds\n  earshot speeds --json",
		Args:    arguments(noArgument),
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print as JSON")
	c.RunE = func(*cobra.Command, []string) error {
		if asJSON {
			return a.speedsJSON()
		}
		return a.speedsText()
	}
	return c
}

// reach is a mark with what sound can make of it at best.
type reach struct {
	Series  string        `json:"series"`
	Marked  string        `json:"marked"`
	Nominal float64       `json:"nominal_s"`
	U95     float64       `json:"best_u95_stops"`
	Verdict judge.Verdict `json:"best_verdict"`
}

func reaches() []reach {
	var out []reach
	for _, s := range []shutter.Series{shutter.Binary(), shutter.Older()} {
		for _, m := range s.Marks {
			best := flawless(m)
			out = append(out, reach{s.Name, m.Label, m.Nominal, best.Summary.U95, best.Verdict})
		}
	}
	return out
}

// flawless judges three firings exactly on the mark.
func flawless(m shutter.Mark) judge.Speed {
	f := shutter.Firing{Close: m.Nominal, Closed: true, Edge: shutter.EdgeStart}
	laying := assign.Laying{Runs: []assign.Run{{Mark: m, Firings: []int{0, 1, 2}}}}
	return judge.Judge([]shutter.Firing{f, f, f}, laying, judge.Standard()).Speeds[0]
}

func (a app) speedsJSON() error {
	return write.Encode(a.stdout, struct {
		Schema string  `json:"schema"`
		Speeds []reach `json:"speeds"`
	}{report.Schema, reaches()})
}

func (a app) speedsText() error {
	w := tabwriter.NewWriter(a.stdout, 0, 0, 2, ' ', 0)
	series := ""
	for _, r := range reaches() {
		if r.Series != series {
			series = r.Series
			fmt.Fprintf(w, "%s series\nmarked\texact\tat best 95 %% sure within\tat best judged\n", series)
		}
		fmt.Fprintf(w, "%s\t%s ms\t±%.3f stop\t%s\n", words.Mark(r.Marked), words.ExactMilliseconds(r.Nominal), r.U95, r.Verdict)
	}
	return w.Flush()
}
