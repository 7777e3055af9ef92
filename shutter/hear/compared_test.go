package hear_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"earshot/dsp/synth"
	"earshot/shutter"
)

// ends are the true ends of a firing by an edge.
func ends(f synth.Firing, edge shutter.Edge) (open, close float64) {
	if edge == shutter.EdgeStop {
		return f.Open.Stop, f.Close.Stop
	}
	return f.Open.Start, f.Close.Start
}

// Times in s: an opening and a closing within near of the true ones are those; a
// duration is meant to be right within close, and is not wrong within far.
const near, close, far = 0.005, 0.0001, 0.0003

// comparison is what was heard of some firings.
type comparison struct {
	made, heard, found int      // firings made, heard, and those that are both
	closed, close      int      // of the found, those that closed, and of these those of a right duration
	mistakes           []string // all that is wrong
}

// compared holds what was heard against what was fired, both in the order of time.
func compared(got []shutter.Firing, want []synth.Firing) comparison {
	c := comparison{made: len(want), heard: len(got)}
	of := make([]bool, len(got))
	for i, f := range want {
		name := fmt.Sprintf("firing %d of %d, %s at %.3f s", i+1, len(want), f.Label, f.Open.Start)
		at := slices.IndexFunc(got, func(g shutter.Firing) bool { return isHeard(g, f) })
		if at < 0 {
			c.mistakes = append(c.mistakes, name+": not heard")
			continue
		}
		of[at] = true
		c.found++
		if why := c.time(got[at], f); why != "" {
			c.mistakes = append(c.mistakes, name+": "+why)
		}
	}
	for k, g := range got {
		if !of[k] {
			c.mistakes = append(c.mistakes, fmt.Sprintf("heard at %.3f to %.3f s, and not fired", g.Open, g.Close))
		}
		if k > 0 && g.Open <= got[k-1].Close || g.Edge != got[0].Edge {
			c.mistakes = append(c.mistakes, fmt.Sprintf("by its %s at %.3f s, after one by its %s to %.3f s", g.Edge, g.Open, got[0].Edge, got[k-1].Close))
		}
	}
	return c
}

// isHeard tells whether what was heard is f. One that hangs is heard not to close, or
// to close so late that it was no doing of the shutter's.
func isHeard(g shutter.Firing, f synth.Firing) bool {
	begin, end := ends(f, g.Edge)
	if math.Abs(g.Open-begin) > near {
		return false
	}
	if !f.Closes {
		return !g.Closed || g.Duration() > f.Nominal+3
	}
	return g.Closed && math.Abs(g.Close-end) <= near
}

// time counts a firing found by how well it is timed, and says what is wrong with it.
func (c *comparison) time(g shutter.Firing, f synth.Firing) string {
	if g.Unfit != "" {
		return "unfit: " + g.Unfit
	}
	if !f.Closes {
		return ""
	}
	begin, end := ends(f, g.Edge)
	wrong := g.Duration() - (end - begin)
	c.closed++
	if math.Abs(wrong) <= close {
		c.close++
	}
	if math.Abs(wrong) > far || !(g.Common > 0 && g.Common <= g.U) {
		return fmt.Sprintf("%.2f ms off by the %s, u %.2f ms, of that common %.2f", 1000*wrong, g.Edge, 1000*g.U, 1000*g.Common)
	}
	return ""
}

// wantRight wants a share of the clips of all seeds right, and logs what check finds
// wrong in the others.
func wantRight(t *testing.T, share float64, check func(seed uint64) (mistakes []string)) {
	t.Helper()
	right, all := 0, 0
	for seed := range seeds {
		mistakes := check(seed)
		all++
		if len(mistakes) == 0 {
			right++
		}
		for _, m := range mistakes {
			t.Logf("seed %d: %s", seed, m)
		}
	}
	got := float64(right) / float64(all)
	if got > share {
		t.Logf("%d of %d clips are right: more than the limit of %.3f", right, all, share)
	}
	if got < share {
		t.Errorf("%d of %d clips are right, want at least %.3f of them", right, all, share)
	}
}
