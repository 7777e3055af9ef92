package timing

import (
	"math"
	"testing"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

// Strokes of opening and closing are alike, so that a start that was missed, or taken
// where there is none, shows in how long they come out.
func TestBothEndsAreTimedByTheEdgeThatIsKnownBetter(t *testing.T) {
	ms := func(x float64) float64 { return x / 1000 }
	movement := func(lead, start, stop float64) *recording.Movements {
		return &recording.Movements{
			Start: recording.Times{Bias: ms(start)}, Stop: recording.Times{Bias: ms(stop)},
			Lead: ms(lead), Drop: 10, Depth: 30,
		}
	}
	tests := []struct {
		name          string
		opens, closes *recording.Movements
		edge          shutter.Edge
		least, most   float64 // of the doubt, ms
	}{
		{"the start where both are known as well", movement(3, 0.03, 0.03), movement(3, 0.03, 0.03), shutter.EdgeStart, 0, 0},
		{"the start where the stop is known somewhat better", movement(3, 0.05, 0.03), movement(3, 0.05, 0.03), shutter.EdgeStart, 0, 0},
		{"the stop where a start is known badly", movement(3, 0.3, 0.03), movement(3, 0.03, 0.03), shutter.EdgeStop, 0, 0},
		{"strokes that differ by 4 % are alike", movement(5, 0.03, 0.03), movement(5.2, 0.03, 0.03), shutter.EdgeStart, 0, 0},
		{"strokes that come out different leave a doubt", movement(3, 0.03, 0.03), movement(4, 0.03, 0.03), shutter.EdgeStart, 0.4, 0.6},
		{"little of it in what is known far better", movement(3, 0.03, 0.03), movement(5, 0.03, 0.7), shutter.EdgeStart, 0.05, 0.15},
		{"and as little in the stop", movement(3, 0.7, 0.03), movement(5, 0.03, 0.03), shutter.EdgeStop, 0.05, 0.15},
		{"too much to be explained so may be a mistake in any", movement(3, 0.03, 0.03), movement(5, 0.03, 0.3), shutter.EdgeStart, 0.9, 1.2},
		{"a stop without a start may be the start", movement(3, 0.03, 0.03), &recording.Movements{Depth: 10}, shutter.EdgeStop, 1.7, 1.8},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			edge, _, _, doubt := likeEnds(tt.opens, tt.closes)
			swapped, _, _, same := likeEnds(tt.closes, tt.opens)
			if doubt *= 1000; edge != tt.edge || doubt < tt.least || doubt > tt.most {
				t.Errorf("timed by the %s, in doubt by %.3f ms; want the %s, %g to %g", edge, doubt, tt.edge, tt.least, tt.most)
			}
			if swapped != edge || math.Abs(same*1000-doubt) > 1e-9 {
				t.Errorf("with opening and closing exchanged timed by the %s, in doubt by %.3f ms", swapped, same*1000)
			}
		})
	}
}

// The more strokes differ the less sure all durations are, however well each part is known.
func TestDoubtNeverFallsAsStrokesDifferMore(t *testing.T) {
	for _, bias := range [][2]float64{{0.02, 0.02}, {0.3, 0.03}, {0.03, 0.3}, {0.1, 0.2}} {
		last := 0.0
		of := func(lead float64) *recording.Movements {
			return &recording.Movements{Start: recording.Times{Bias: bias[0] / 1000}, Stop: recording.Times{Bias: bias[1] / 1000}, Lead: lead}
		}
		for lead := 0.003; lead <= 0.01; lead += 2e-5 {
			opens, closes := of(0.003), of(lead)
			doubt := astray(commonTo(opens.Start, closes.Start), opens, closes)
			if doubt < last-1e-12 {
				t.Fatalf("biases of %v ms, strokes of 3 and %.2f ms: in doubt by %.4f ms, by %.4f where they differ less", bias, lead*1000, doubt*1000, last*1000)
			}
			last = doubt
		}
	}
}
