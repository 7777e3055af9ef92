package collage

import (
	"cmp"
	"math"
	"slices"
)

// Each fault changes some of the shots of a healthy shutter, by a grade between just
// visible and gross, and tells the symptoms of the shutter as a whole.

// afflict changes a share of the shots, one at least.
func (t *take) afflict(shots []shot, share float64, change func(*shot)) {
	sure := t.IntN(len(shots))
	for i := range shots {
		if i == sure || t.chance(share) {
			change(&shots[i])
		}
	}
}

func closesEarly(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.3, 2.5)
	t.afflict(shots, t.ratio(0.05, 0.4), func(s *shot) {
		s.stops -= t.about(grade, 0.2)
		s.suffers("closes early")
	})
	return nil, false
}

func hangsOpen(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.3, 3)
	t.afflict(shots, t.ratio(0.05, 0.4), func(s *shot) {
		s.stops += min(t.about(grade, 0.2), math.Log2(8/s.nominal))
		s.stays = grade > 1.5 && t.chance(0.2)
		s.suffers("hangs open")
	})
	return nil, false
}

func hesitates(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.15, 1) // of the duration
	slowest := slices.MaxFunc(shots, func(a, b shot) int { return cmp.Compare(a.nominal, b.nominal) }).nominal
	share, none := t.ratio(0.1, 0.7), true
	for i := range shots {
		s := &shots[i]
		if s.nominal >= 0.2 && t.chance(share) || none && s.nominal == slowest {
			s.pause, none = s.nominal*t.about(grade, 0.25), false
			s.suffers("hesitates")
		}
	}
	return nil, false
}

func needsExercise(t *take, shots []shot) ([]string, bool) {
	grade, fades := t.ratio(0.3, 2), t.ratio(0.8, 3)
	since := 0
	for i := range shots {
		if shots[i].first {
			since = 0
		}
		shots[i].stops += grade * math.Exp(-float64(since)/fades)
		since++
	}
	return []string{"needs exercise"}, false
}

func erratic(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.12, 0.9)
	for i := range shots {
		shots[i].stops += grade * max(-2, min(2, t.NormFloat64()))
	}
	return []string{"erratic"}, false
}

func lazyBlades(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(2, 7)
	t.afflict(shots, t.between(0.3, 1), func(s *shot) {
		s.lazy = t.about(grade, 0.1)
		s.suffers("lazy blades")
	})
	return nil, false
}

func bouncesOpen(t *take, shots []shot) ([]string, bool) {
	t.afflict(shots, t.between(0.2, 0.9), func(s *shot) {
		s.opens = true
		s.suffers("bounces open")
	})
	return nil, false
}

// slowEscapement makes the speeds slow that it times, the more the longer it runs.
func slowEscapement(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.3, 1.5)
	for i := range shots {
		shots[i].stops += grade * min(1, max(0, math.Log2(shots[i].nominal*20)/4))
	}
	return []string{"slow escapement"}, false
}

func unevenSteps(t *take, shots []shot) ([]string, bool) {
	grade := t.ratio(0.25, 0.8)
	by := map[string]float64{}
	for i := range shots {
		if _, ok := by[shots[i].mark]; !ok {
			by[shots[i].mark] = grade * t.between(-1, 1)
		}
		shots[i].stops += by[shots[i].mark]
	}
	return []string{"uneven steps"}, false
}
