package main

import (
	"testing"

	"earshot/shutter/judge"
)

// By statistics alone every ailment is found as often as asked, and healthy shutters
// are left alone: a few hundred, of thousands that are measured for docs/symptoms.md.
func TestSymptomsAreFoundWhereTheyAreByStatistics(t *testing.T) {
	t.Parallel()
	const some = 400
	for i, a := range ailments() {
		if !a.held {
			continue
		}
		d := a.simulate(uint64(i+1), some)
		t.Logf("%s, %s: %v of %d, %d without any", a.name(), a.grade, d.named, d.checked, d.clear)
		if d.checked != some || !d.reached() {
			t.Errorf("%s, %s: named %v of %d", a.name(), a.grade, d.named, d.checked)
		}
	}
}

// A few by sound; all of them are measured for docs/symptoms.md.
func TestSymptomsAreFoundWhereTheyAreBySound(t *testing.T) {
	t.Parallel()
	for i, a := range ailments() {
		if !a.held || testing.Short() && i%8 > 0 {
			continue
		}
		a.shutters = 2
		d, err := a.diagnose(uint64(i + 1))
		if err != nil {
			t.Fatal(err)
		}
		if a.symptom != "" && len(d.missed) > 1 || a.symptom == "" && d.clear < 1 {
			t.Errorf("%s, %s: named %v of %d, missed %v", a.name(), a.grade, d.named, d.checked, d.missed)
		}
	}
}

func TestTheTargetsOfNamingCanBeMissed(t *testing.T) {
	healthy, erratic := ailment{held: true}, ailment{symptom: "erratic", held: true}
	tests := []struct {
		name string
		d    diagnosis
		want bool
	}{
		{"all named", diagnosis{ailment: erratic, checked: 100, named: names("erratic", 95)}, true},
		{"too few named", diagnosis{ailment: erratic, checked: 100, named: names("erratic", 94)}, false},
		{"named otherwise", diagnosis{ailment: erratic, checked: 100, named: names("hesitates", 100)}, false},
		{"healthy with few names", diagnosis{ailment: healthy, checked: 100, named: names("erratic", 2)}, true},
		{"healthy with too many of one", diagnosis{ailment: healthy, checked: 100, named: names("erratic", 3)}, false},
		{"nothing checked", diagnosis{ailment: erratic}, false},
	}
	for _, test := range tests {
		if got := test.d.reached(); got != test.want {
			t.Errorf("%s: reached %v, want %v", test.name, got, test.want)
		}
		if got := (diagnoses{test.d}).met(); got != test.want {
			t.Errorf("%s: met %v, want %v", test.name, got, test.want)
		}
	}
}

func names(n judge.SymptomName, count int) map[judge.SymptomName]int {
	return map[judge.SymptomName]int{n: count}
}
