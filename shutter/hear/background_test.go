package hear

import "testing"

func TestWhatElseIsHeardIsCountedOnce(t *testing.T) {
	loud := func(at ...float64) (all []sound) {
		for _, t := range at {
			all = append(all, sound{at: t, level: -20, prominence: 30})
		}
		return all
	}
	faint := sound{at: 2, level: -40, prominence: 30}
	echo := sound{at: 2, level: -20, prominence: 3}
	firing := []pair{{open: 0, close: 1, span: 0.5}}
	tests := []struct {
		name   string
		sounds []sound
		want   int
	}{
		{"nothing but the firing", loud(1, 1.5), 0},
		{"a winding of many clicks is one", loud(1, 1.5, 3, 3.05, 3.1, 3.16, 3.2), 1},
		{"claps are one each", loud(1, 1.5, 3, 3.3, 3.6), 3},
		{"a mirror right after the closing is of the firing", loud(1, 1.5, 1.56), 0},
		{"what is far weaker is no rival", append(loud(1, 1.5), faint), 0},
		{"what an earlier sound explains is none", append(loud(1, 1.5), echo), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			end := &class{centre: sound{level: -20}}
			m := &model{r: &recordedClip{sounds: tt.sounds}, open: end, close: end}
			if got := m.countOthers(firing); got != tt.want {
				t.Errorf("others = %d, want %d", got, tt.want)
			}
		})
	}
}

func TestTwoFiringsAreMoreThanTwiceOne(t *testing.T) {
	m := &model{}
	one := m.fewOdds([]pair{{span: 0.5}})
	if two := m.fewOdds([]pair{{span: 0.5}, {span: 0.505}}); two <= 2*one {
		t.Errorf("two that last as long as each other have %.2f, one has %.2f", two, one)
	}
	if two := m.fewOdds([]pair{{span: 0.5}, {span: 3.1}}); two > one {
		t.Errorf("two that do not have %.2f, one has %.2f", two, one)
	}
	if parts := m.fewOdds([]pair{{span: 0.03}, {span: 0.03}}); parts != 0 {
		t.Errorf("parts of two ticks have %.2f, want nothing", parts)
	}
}
