package quality

import (
	"fmt"
	"math"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

const (
	mostClicks = 32    // sounds that are measured
	clickSpan  = 0.002 // s of a sound that are measured, where it is loudest
	clickReach = 0.012 // s within which it is loudest: a softly begun one is so at its end stop
)

// HearClicks sets Click to the median level of the sounds that begin at the given
// samples, each where it is loudest over 2 ms, above LowestHeard. Of many sounds some
// are taken, spread over the clip; without any, Click is not changed. It returns the error
// of src, wrapped.
func (q *Quality) HearClicks(h *dsp.Hearing, src dsp.Source, at []int64) error {
	n := min(len(at), mostClicks)
	levels := make([]float64, 0, n)
	for i := range n {
		x, err := dsp.Excerpt(src, h.Channel, at[i*len(at)/n], int((clickReach+clickSpan)*float64(h.Rate)))
		if err != nil {
			return fmt.Errorf("measuring a click: %w", err)
		}
		levels = append(levels, num.Decibel(loudestSpan(x, int(math.Round(clickSpan*float64(h.Rate))))))
	}
	if n > 0 {
		q.Click = num.Nth(levels, n/2)
	}
	return nil
}

// loudestSpan is the largest mean square over n samples of x.
func loudestSpan(x []float64, n int) float64 {
	sum, most := 0.0, 0.0
	for i, v := range x {
		sum += v * v
		if i >= n {
			sum -= x[i-n] * x[i-n]
		}
		most = max(most, sum)
	}
	return most / float64(n)
}
