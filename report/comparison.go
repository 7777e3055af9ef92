package report

import (
	"slices"
	"strings"
	"time"

	"earshot/report/words"
	"earshot/shutter"
	"earshot/shutter/judge"
)

// Comparison is what changed of one shutter between two records. Lists are never null.
type Comparison struct {
	Schema   string        `json:"schema"`
	Tool     Tool          `json:"tool"`
	Before   Side          `json:"before"`
	After    Side          `json:"after"`
	SameSet  bool          `json:"same_set_up"` // told so: the edge term drops out of the changes
	Speeds   []SpeedChange `json:"speeds"`      // every speed of either record, slowest first
	Changed  bool          `json:"changed"`     // a change is real, or a verdict another
	Sum      string        `json:"sum"`         // one sentence
	Warnings []string      `json:"warnings"`    // what makes the records hard to compare
}

// Side is one of the two records.
type Side struct {
	Made    time.Time     `json:"made"`
	Lens    Lens          `json:"lens"`
	Policy  Policy        `json:"policy"`
	Verdict judge.Verdict `json:"verdict"`
}

// SpeedChange is one speed in both records. If one of them has no mean or lacks the speed,
// Change and what depends on it are nil, and Why says the reason.
type SpeedChange struct {
	Marked  string   `json:"marked"`
	Nominal float64  `json:"nominal_s"`
	Before  *Found   `json:"before"`
	After   *Found   `json:"after"`
	Change  *float64 `json:"change_stops"` // + is slower
	U95     *float64 `json:"u95_stops"`
	P       *float64 `json:"p"` // of so large a change from scatter alone, corrected for the number of speeds
	Real    bool     `json:"real"`
	Why     string   `json:"why"`
}

// Found is what a record says of a speed.
type Found struct {
	N         int           `json:"n"`
	Deviation *float64      `json:"deviation_stops"`
	U95       *float64      `json:"u95_stops"`
	Spread    *float64      `json:"spread_stops"`
	Symptoms  []string      `json:"symptoms"`
	Verdict   judge.Verdict `json:"verdict"`
}

// Compare says what changed from one record to another of the same shutter. sameSetUp
// is true where the phone, its place and what the lens lay on were the same in both.
func Compare(before, after Document, sameSetUp bool, version string) Comparison {
	c := Comparison{
		Schema: Schema, Tool: Tool{version}, Before: newSide(before), After: newSide(after),
		SameSet: sameSetUp && !edgesDiffer(before, after), Warnings: comparability(before, after, sameSetUp),
	}
	c.Speeds = pairSpeeds(before, after)
	c.weigh(before, after)
	c.Changed = slices.ContainsFunc(c.Speeds, SpeedChange.differs)
	c.Sum = words.Capital(strings.Join(c.Findings(), "; ")) + ". The shutter: " + fromTo(c.Before.Verdict, c.After.Verdict)
	return c
}

func newSide(d Document) Side {
	return Side{Made: d.Made, Lens: d.Lens, Policy: d.Policy, Verdict: d.Verdict}
}

// pairSpeeds lists every speed of either record, slowest first.
func pairSpeeds(before, after Document) []SpeedChange {
	pairs := []SpeedChange{}
	at := func(s Speed) *SpeedChange {
		i := slices.IndexFunc(pairs, func(p SpeedChange) bool { return p.Marked == s.Marked && p.Nominal == s.Nominal })
		if i < 0 {
			i, pairs = len(pairs), append(pairs, SpeedChange{Marked: s.Marked, Nominal: s.Nominal})
		}
		return &pairs[i]
	}
	for _, s := range before.Speeds {
		at(s).Before = newFound(s)
	}
	for _, s := range after.Speeds {
		at(s).After = newFound(s)
	}
	slices.SortStableFunc(pairs, func(a, b SpeedChange) int {
		return shutter.DialOrder(shutter.Mark{Label: a.Marked, Nominal: a.Nominal}, shutter.Mark{Label: b.Marked, Nominal: b.Nominal})
	})
	return pairs
}

func newFound(s Speed) *Found {
	return &Found{N: s.N, Deviation: s.Deviation, U95: s.U95, Spread: s.Spread, Verdict: s.Verdict,
		Symptoms: each(s.Symptoms, func(y Symptom) string { return y.Name })}
}

// weigh works out the changes of the speeds that have a mean in both records.
func (c *Comparison) weigh(before, after Document) {
	var which []int
	var old, now []judge.Sitting
	for i := range c.Speeds {
		p := &c.Speeds[i]
		if p.Why = p.whyNone(); p.Why == "" {
			which = append(which, i)
			old, now = append(old, before.sitting(p.Marked, p.Nominal)), append(now, after.sitting(p.Marked, p.Nominal))
		}
	}
	for j, change := range judge.Compare(old, now, c.SameSet) {
		p := &c.Speeds[which[j]]
		p.Change, p.U95, p.Real = some(change.Stops, 5, true), some(change.U95, 5, change.U95 > 0), change.Real
		p.P = some(change.P, 6, change.U95 > 0)
	}
}

// whyNone says why no change can be given; empty where one can.
func (p SpeedChange) whyNone() string {
	switch {
	case p.Before == nil:
		return "not recorded before"
	case p.After == nil:
		return "not recorded after"
	case p.Before.Deviation == nil:
		return "no mean before"
	case p.After.Deviation == nil:
		return "no mean after"
	}
	return ""
}

// differs says whether anything is to be told of the speed.
func (p SpeedChange) differs() bool {
	return p.Real || p.Before != nil && p.After != nil && p.Before.Verdict != p.After.Verdict
}

// sitting is what the statistics need of a speed that has a mean.
func (d Document) sitting(marked string, nominal float64) judge.Sitting {
	i := slices.IndexFunc(d.Speeds, func(s Speed) bool { return s.Marked == marked && s.Nominal == nominal })
	s := d.Speeds[i]
	out := judge.Sitting{Deviation: *s.Deviation, N: s.N}
	if s.Scatter != nil && s.Budget != nil {
		out.Scatter, out.DF = *s.Scatter, s.DF
		out.Budget = judge.Budget(*s.Budget)
	}
	return out
}
