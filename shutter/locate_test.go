package shutter

import (
	"math"
	"testing"

	"earshot/dsp"
	"earshot/dsp/align"
)

// Strokes of opening and closing are alike, so that a start that was missed, or taken
// where there is none, shows in how long they come out.
func TestBothEndsAreTimedByTheEdgeThatIsKnownBetter(t *testing.T) {
	const rate = 48000
	ms := func(x float64) float64 { return x * rate / 1000 }
	movement := func(lead, start, stop float64) *align.Movements {
		return &align.Movements{
			Start: align.Times{Bias: ms(start)}, Stop: align.Times{Bias: ms(stop)},
			Lead: ms(lead), Drop: 10, Depth: 30,
		}
	}
	tests := []struct {
		name          string
		opens, closes *align.Movements
		edge          Edge
		least, most   float64 // of the doubt, ms
	}{
		{"the start where both are known as well", movement(3, 0.03, 0.03), movement(3, 0.03, 0.03), EdgeStart, 0, 0},
		{"the start where the stop is known somewhat better", movement(3, 0.05, 0.03), movement(3, 0.05, 0.03), EdgeStart, 0, 0},
		{"the stop where a start is known badly", movement(3, 0.3, 0.03), movement(3, 0.03, 0.03), EdgeStop, 0, 0},
		{"strokes that differ by 4 % are alike", movement(5, 0.03, 0.03), movement(5.2, 0.03, 0.03), EdgeStart, 0, 0},
		{"strokes that come out different leave a doubt", movement(3, 0.03, 0.03), movement(4, 0.03, 0.03), EdgeStart, 0.4, 0.6},
		{"little of it in what is known far better", movement(3, 0.03, 0.03), movement(5, 0.03, 0.7), EdgeStart, 0.05, 0.15},
		{"and as little in the stop", movement(3, 0.7, 0.03), movement(5, 0.03, 0.03), EdgeStop, 0.05, 0.15},
		{"too much to be explained so may be a mistake in any", movement(3, 0.03, 0.03), movement(5, 0.03, 0.3), EdgeStart, 0.9, 1.2},
		{"a stop without a start may be the start", movement(3, 0.03, 0.03), &align.Movements{Depth: 10}, EdgeStop, 1.7, 1.8},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := &room{h: dsp.Hearing{Format: dsp.Format{Rate: rate, Channels: 1}}}
			edge, _, _, doubt := r.likeEnds(tt.opens, tt.closes)
			swapped, _, _, same := r.likeEnds(tt.closes, tt.opens)
			if doubt *= 1000.0 / rate; edge != tt.edge || doubt < tt.least || doubt > tt.most {
				t.Errorf("timed by the %s, in doubt by %.3f ms; want the %s, %g to %g", edge, doubt, tt.edge, tt.least, tt.most)
			}
			if swapped != edge || math.Abs(same*1000.0/rate-doubt) > 1e-9 {
				t.Errorf("with opening and closing exchanged timed by the %s, in doubt by %.3f ms", swapped, same*1000/rate)
			}
		})
	}
}

// The more strokes differ the less sure all durations are, however well each part is known.
func TestDoubtNeverFallsAsStrokesDifferMore(t *testing.T) {
	for _, bias := range [][2]float64{{0.02, 0.02}, {0.3, 0.03}, {0.03, 0.3}, {0.1, 0.2}} {
		last := 0.0
		for lead := 144.0; lead <= 480; lead++ {
			opens := &align.Movements{Start: align.Times{Bias: 48 * bias[0]}, Stop: align.Times{Bias: 48 * bias[1]}, Lead: 144}
			closes := &align.Movements{Start: align.Times{Bias: 48 * bias[0]}, Stop: align.Times{Bias: 48 * bias[1]}, Lead: lead}
			doubt := astray(commonTo(opens.Start, closes.Start), opens, closes)
			if doubt < last-1e-9 {
				t.Fatalf("biases of %v ms, strokes of 3 and %.2f ms: in doubt by %.1f samples, by %.1f where they differ less", bias, lead/48, doubt, last)
			}
			last = doubt
		}
	}
}
