package impact

import (
	"slices"

	"earshot/dsp/known"
)

// modern returns the marks of the modern series, with the binary times behind them.
func modern() []known.Setting {
	return []known.Setting{
		{Mark: "4s", Nominal: 4}, {Mark: "2s", Nominal: 2}, {Mark: "1", Nominal: 1},
		{Mark: "1/2", Nominal: 1.0 / 2}, {Mark: "1/4", Nominal: 1.0 / 4},
		{Mark: "1/8", Nominal: 1.0 / 8}, {Mark: "1/15", Nominal: 1.0 / 16},
		{Mark: "1/30", Nominal: 1.0 / 32}, {Mark: "1/60", Nominal: 1.0 / 64},
		{Mark: "1/125", Nominal: 1.0 / 128},
	}
}

// older returns the marks of the older series, which are the times themselves.
func older() []known.Setting {
	return []known.Setting{
		{Mark: "1", Nominal: 1}, {Mark: "1/2", Nominal: 1.0 / 2}, {Mark: "1/5", Nominal: 1.0 / 5},
		{Mark: "1/10", Nominal: 1.0 / 10}, {Mark: "1/25", Nominal: 1.0 / 25},
		{Mark: "1/50", Nominal: 1.0 / 50},
	}
}

// marks returns the marks of a series between two nominal times, both included.
func marks(series []known.Setting, slowest, fastest float64) []known.Setting {
	var m []known.Setting
	for _, s := range series {
		if s.Nominal <= slowest*1.001 && s.Nominal >= fastest*0.999 {
			m = append(m, s)
		}
	}
	return m
}

// tell gives each mark its count of firings, and keeps the clip below so many s. A firing
// takes the wait besides its time.
func (d dice) tell(series []known.Setting, low, high int, wait, atMost float64) []known.Setting {
	told := slices.Clone(series)
	steady := d.chance(0.7)
	count := d.count(low, high)
	for i := range told {
		if !steady {
			count = d.count(low, high)
		}
		told[i].Count = count
	}
	for takes(told, wait) > atMost && len(told) > 1 {
		told = d.shortened(told, low)
	}
	if d.chance(0.35) {
		slices.Reverse(told)
	}
	return told
}

// shortened returns a sitting with one firing less where there are many, or without its
// slowest or its fastest mark.
func (d dice) shortened(told []known.Setting, low int) []known.Setting {
	most := 0
	for i := range told {
		if told[i].Count > told[most].Count {
			most = i
		}
	}
	if told[most].Count > low {
		told[most].Count--
		return told
	}
	if d.chance(0.5) {
		return told[1:]
	}
	return told[:len(told)-1]
}

// takes returns how long a sitting lasts, s.
func takes(told []known.Setting, wait float64) float64 {
	sum := 0.0
	for _, s := range told {
		sum += float64(s.Count) * (wait + 1.3*s.Nominal)
	}
	return sum
}
