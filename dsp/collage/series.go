package collage

import (
	"slices"

	"earshot/dsp/known"
)

// mark is a speed on the dial and the time behind it, s.
type mark struct {
	name    string
	nominal float64
}

// modern is the series of halves: 1/15 is 1/16 s.
func modern() []mark {
	return []mark{{"4s", 4}, {"2s", 2}, {"1", 1}, {"1/2", 0.5}, {"1/4", 0.25}, {"1/8", 0.125},
		{"1/15", 1. / 16}, {"1/30", 1. / 32}, {"1/60", 1. / 64}, {"1/125", 1. / 128}}
}

// older is the series whose marks are the times themselves.
func older() []mark {
	return []mark{{"1", 1}, {"1/2", 0.5}, {"1/5", 0.2}, {"1/10", 0.1}, {"1/25", 0.04}, {"1/50", 0.02}}
}

// programme draws what an operator fires: marks from first to last of those of the
// series, in falling, rising or any order, so many times each that it takes about a minute.
func (t *take) programme(s scene) []known.Setting {
	marks := modern()
	if s.older {
		marks = older()
	} else {
		marks = marks[t.whole(s.first, s.first+1):]
		marks = marks[:min(len(marks), t.whole(5, 8-s.first/2))]
	}
	marks = t.ordered(marks[:min(len(marks), t.whole(3, 7))])
	times := t.whole(s.least, s.most)
	left := 55.0
	var told []known.Setting
	for _, m := range marks {
		n := times
		if t.chance(0.25) {
			n = t.whole(s.least, s.most)
		}
		for n > 1 && float64(n)*(m.nominal+2.5) > left {
			n--
		}
		left -= float64(n) * (m.nominal + 2.5)
		if left < 0 && len(told) > 0 {
			break
		}
		told = append(told, known.Setting{Mark: m.name, Nominal: m.nominal, Count: n})
	}
	return told
}

func (t *take) ordered(marks []mark) []mark {
	marks = slices.Clone(marks)
	switch t.IntN(3) {
	case 0:
		slices.Reverse(marks)
	case 1:
		t.Shuffle(len(marks), func(i, j int) { marks[i], marks[j] = marks[j], marks[i] })
	}
	return marks
}
