package report

import (
	"fmt"
	"slices"

	"earshot/report/words"
	"earshot/shutter/judge"
)

// Finding is a symptom with everything it rests on, over all speeds.
type Finding struct {
	Name    string
	Speeds  []Speed  // that it shows at; empty for one of the shutter as a whole
	Firings []int    // indices into Document.Firings
	Whys    []string // a sentence for each speed
	Cause   string
}

// Findings gathers the symptoms by name, in the order in which they are met along
// the dial.
func (d Document) Findings() []Finding {
	var out []Finding
	add := func(y Symptom, prefix string, at ...Speed) {
		i := slices.IndexFunc(out, func(f Finding) bool { return f.Name == y.Name })
		if i < 0 {
			i, out = len(out), append(out, Finding{Name: y.Name, Cause: y.Cause})
		}
		f := &out[i]
		f.Speeds = append(f.Speeds, at...)
		f.Firings = append(f.Firings, y.Firings...)
		f.Whys = append(f.Whys, prefix+y.Why)
	}
	for _, s := range d.Speeds {
		for _, y := range s.Symptoms {
			add(y, s.Marked+": ", s)
		}
	}
	for _, y := range d.Symptoms {
		add(y, "")
	}
	return out
}

// Words says what was found and where: "erratic at 1/8, 1/15 s".
func (f Finding) Words() string {
	if len(f.Speeds) == 0 {
		return f.Name
	}
	return f.Name + " at " + marksOf(f.Speeds)
}

// Plainly says what was found, where, and what it means, for a reader who does not know the
// trade's name for it.
func (f Finding) Plainly() string {
	means := ""
	switch judge.SymptomName(f.Name) {
	case judge.HangsOpen:
		means = ": the blades stayed open" + f.share()
	case judge.ClosesEarly:
		means = ": the blades closed much too soon" + f.share()
	case judge.NeedsExercise:
		means = ": it was slow at first and freed up as it was fired"
	case judge.Erratic:
		means = ": its times differ too much from firing to firing"
	case judge.Hesitates:
		means = ": its slow-speed gear train stopped and went on" + f.share()
	case judge.LazyBlades:
		means = ": the blades moved weakly or slowly, or bounced" + f.share()
	case judge.SlowEscapement:
		means = ": its gear train makes the slow speeds too slow, all alike"
	case judge.UnevenSteps:
		means = ": out of step with the other speeds"
	}
	return f.Words() + means
}

// share says at how many of its speeds' firings the symptom showed.
func (f Finding) share() string {
	all := 0
	for _, s := range f.Speeds {
		all += len(s.Firings)
	}
	if all == 0 {
		return ""
	}
	return fmt.Sprintf(" at %d of %s there", len(f.Firings), words.Plural(all, "firing"))
}
