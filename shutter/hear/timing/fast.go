package timing

import (
	"context"
	"math"

	"earshot/shutter"
	"earshot/shutter/hear/recording"
)

// Fast looks for firings of a leaf shutter so fast that opening and closing are one sound,
// whose loudest parts begin at the times. What an opening and a closing are like is taught
// by the ends of slower firings, all of them closed. There is one firing for each time;
// where none was found it is not Closed.
func Fast(ctx context.Context, clip *recording.Clip, taught []Ends, loudest []float64) ([]shutter.Firing, error) {
	opens, closes, err := movements(ctx, clip, taught)
	if err != nil {
		return nil, err
	}
	opening, closing := opens.Template(soonestClosing(opens, closes)), closes.Template(math.Inf(1))
	edge, _, _, doubt := likeEnds(opens, closes)
	firings := make([]shutter.Firing, len(loudest))
	for i, at := range loudest {
		o, ok, err := clip.Overlay(ctx, opening, closing, at)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		between := o.Start
		if edge == shutter.EdgeStop {
			between = o.Stop
		}
		f := shutter.Firing{Edge: edge, Closed: true, U: math.Hypot(between.U, doubt), Common: math.Hypot(between.Bias, doubt),
			Open: between.First, Close: between.Second}
		if f.Duration() < leastStroke*math.Max(opens.Lead, closes.Lead) {
			continue // blades close no sooner than they have opened, and strokes differ
		}
		firings[i] = f
	}
	return firings, nil
}

// soonestClosing is the least time in s from the start of an opening to that of its
// closing. Where the one shows no start its stop was taken for it, which comes a stroke
// later.
func soonestClosing(opens, closes *recording.Movements) float64 {
	least := math.Inf(1)
	for i, at := range closes.Start.At {
		least = math.Min(least, at-opens.Start.At[i])
	}
	return least - math.Max(0, opens.Lead-closes.Lead)
}
