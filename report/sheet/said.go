package sheet

import (
	"fmt"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/words"
	"earshot/shutter/judge"
)

func tested(d report.Document) []string {
	return []string{
		fmt.Sprintf("How long the blades stay open at %s, from the sound of their opening and closing: %s.", marks(d, func(s report.Speed) bool { return s.N > 0 }), d.CountWords()),
		"Whether each speed repeats, and whether the shutter hangs, closes early or frees up as it is fired.",
	}
}

func notTested(d report.Document) []string {
	lines := []string{}
	if unjudged := marks(d, func(s report.Speed) bool { return s.Verdict == judge.NotJudged }); unjudged != "" {
		lines = append(lines, "Fired, and not judged: "+unjudged+".")
	}
	return append(lines, "Speeds faster than those above, the aperture, flash contacts, film transport, glass and body.",
		"Light: sound tells when metal hits metal, not when half the light is through. The stated uncertainty allows for that.",
		"How the shutter behaves after a longer rest, in the cold or held otherwise: these change it by more than the uncertainty says.")
}

func marks(d report.Document, is func(report.Speed) bool) string {
	var names []string
	for _, s := range d.Speeds {
		if is(s) {
			names = append(names, strings.TrimSuffix(s.Marked, "s"))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return strings.Join(names, ", ") + " s"
}

// cautions are the usual ones.
var cautions = []string{
	"Old flash equipment can carry dangerous voltages. Do not look at the sun through a lens.",
	"Do not force a jammed shutter or open one (springs, small parts): leave that to a qualified repairer, and heed local rules.",
}

// how says what it takes to repeat the measurement.
func how(d report.Document, onRecord []report.Document) []string {
	var lines []string
	for _, c := range d.Clips {
		lines = append(lines, fmt.Sprintf("Recording %s (%s, %.0f s), sha256 %s.", c.File, c.Format, c.Duration, c.SHA256))
	}
	from := "this recording"
	for _, l := range d.ByHandLines() {
		lines, from = append(lines, l+"."), "this recording, these labels"
	}
	lines = append(lines, fmt.Sprintf("Measured by earshot %s: earshot check with %s and the speeds above gives these figures again.", d.Tool.Version, from))
	p := d.Policy
	lines = append(lines, fmt.Sprintf("Limits, policy %s: good within %s of the mark, service beyond %s; spread at three firings good within %s, service beyond %s. These limits are the policy's own, not a standard's.",
		p.Name, words.Stops(p.Good), words.Stops(p.Service), words.Stops(p.SpreadGood), words.Stops(p.SpreadService)))
	lines = append(lines, "“95 % sure within” holds for this sitting. Deviations are in stops: slow gives more light.")
	if words := d.Lens.Words(); words != "" {
		lines = append(lines, words+".")
	}
	return append(lines, history(onRecord)...)
}

// mostChecks is how many checks the sheet lists, the latest.
const mostChecks = 5

// history lists the checks of one serial number, where there are several.
func history(onRecord []report.Document) []string {
	if len(onRecord) < 2 {
		return nil
	}
	checks := slices.Clone(onRecord)
	slices.SortStableFunc(checks, func(a, b report.Document) int { return a.Made.Compare(b.Made) })
	var listed []string
	for _, d := range checks[max(0, len(checks)-mostChecks):] {
		of := ""
		if len(d.Clips) > 0 {
			of = " (" + d.Clips[0].File + ")"
		}
		listed = append(listed, words.Date(d.Made)+of+" "+d.Verdict.String())
	}
	return []string{fmt.Sprintf("%d checks of this serial number are on record: %s.", len(checks), strings.Join(listed, "; "))}
}
