package judge

// SymptomName is a fault as the trade calls it.
type SymptomName string

// The symptoms, in the order in which they explain a firing.
const (
	HangsOpen      SymptomName = "hangs open"
	ClosesEarly    SymptomName = "closes early"
	NeedsExercise  SymptomName = "needs exercise"
	Erratic        SymptomName = "erratic"
	Hesitates      SymptomName = "hesitates"
	LazyBlades     SymptomName = "lazy blades"
	SlowEscapement SymptomName = "slow escapement"
	UnevenSteps    SymptomName = "uneven steps"
)

// Symptom is a named fault with the firings it rests on.
type Symptom struct {
	Name    SymptomName
	Firings []int  // indices into Check.Firings
	Why     string // one plain sentence
	Cause   string // what usually causes it (common practice, no source)
}

// findSymptoms looks for the faults that single firings show, in order: a firing explained by
// one symptom does not count for a later one. The symptoms of the dial follow once its speeds
// are summed up.
func (j *judging) findSymptoms() {
	j.hangsOpen()
	j.closesEarly()
	j.needsExercise()
	j.erratic()
	j.hesitates()
	j.lazyBlades()
}

// advisesService tells whether a symptom by itself advises service.
func (n SymptomName) advisesService() bool { return n != UnevenSteps }

// cause returns what usually causes a symptom. It is common practice among
// repairers, no source, and says so; it is never a repair instruction.
func (n SymptomName) cause() string {
	const source = " (common practice, no source)"
	switch n {
	case HangsOpen:
		return "usually blades stuck by old oil, or a slow-speed escapement that stalls" + source
	case ClosesEarly:
		return "usually a slow-speed escapement that does not engage at every firing" + source
	case NeedsExercise:
		return "usually oil that has thickened while the shutter lay unused" + source
	case Erratic:
		return "usually dirt or thickened oil in the slow-speed escapement" + source
	case Hesitates:
		return "usually dirt or wear at a tooth or pivot of the slow-speed escapement" + source
	case LazyBlades:
		return "usually oil on the blades or a tired spring" + source
	case SlowEscapement:
		return "usually thickened oil in the slow-speed escapement, or its adjustment" + source
	case UnevenSteps:
		return "usually wear or adjustment of the speed cam, or a repair; it is worth knowing and by itself no reason for service" + source
	}
	return ""
}

// add puts a symptom to a speed and to the firings it rests on.
func (j *judging) add(t *trial, name SymptomName, firings []int, why string) {
	t.speed.Symptoms = append(t.speed.Symptoms, j.symptom(name, firings, why))
}

// symptom returns a symptom and notes it at the firings it rests on.
func (j *judging) symptom(name SymptomName, firings []int, why string) Symptom {
	for _, i := range firings {
		f := &j.check.Firings[i]
		f.Symptoms = append(f.Symptoms, name)
	}
	return Symptom{Name: name, Firings: firings, Why: why, Cause: name.cause()}
}

// firingsWith returns the firings that the named symptom of the speed rests on.
func (t *trial) firingsWith(name SymptomName) []int {
	for _, s := range t.speed.Symptoms {
		if s.Name == name {
			return s.Firings
		}
	}
	return nil
}

// unexplained returns which of the firings counted have no symptom yet, as places
// in the trial's lists.
func (j *judging) unexplained(t *trial) []int {
	places := []int{}
	for k, i := range t.counted {
		if len(j.check.Firings[i].Symptoms) == 0 {
			places = append(places, k)
		}
	}
	return places
}
