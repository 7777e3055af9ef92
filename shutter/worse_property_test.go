package shutter

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// worsened are ways in which the firings of a speed get worse: they agree less about the
// same mean, the outermost moves further out, or all move away from the mark together.
var worsened = map[string]func(x []float64, by float64) []float64{
	"wider": func(x []float64, by float64) []float64 {
		m, out := mean(x), slices.Clone(x)
		for i := range out {
			out[i] = m + (1+by)*(out[i]-m)
		}
		return out
	},
	"one further out": propertyFurtherOut,
	"all further off": func(x []float64, by float64) []float64 {
		side, out := math.Copysign(by, mean(x)), slices.Clone(x)
		for i := range out {
			out[i] += side
		}
		return out
	},
}

// What must hold however a speed gets worse: it does not become good, nor does the
// shutter, unless it was. What need not hold is that no verdict ever rises: firings that
// agree less are less surely beyond a limit (see TestNoSpeedIsJudgedBetterForAWorseFiring),
// and a speed that turns out erratic no longer widens what is not known of its fellows,
// while it has service advised for the whole. Nor is the shutter worse for a speed that
// scatters so far that it is no longer judged: its verdict is that of the speeds that
// are, and the reasons name the one that is not.
func TestNothingThatGetsWorseMakesGood(t *testing.T) {
	for name, worsen := range worsened {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				speeds := propertySpeeds(rt)
				k := rapid.IntRange(0, len(speeds)-1).Draw(rt, "which")
				worse := slices.Clone(speeds)
				worse[k].x = worsen(speeds[k].x, rapid.Float64Range(0, 3).Draw(rt, "by"))
				before, after := propertyJudged(rt, t, speeds), propertyJudged(rt, t, worse)
				if p, q := before.Speeds[k], after.Speeds[k]; q.Verdict == Good && p.Verdict != Good {
					rt.Fatalf("%s became good (%s) from %v (%s): %v to %v", p.Mark.Label, q.Why, p.Verdict, p.Why, speeds[k].x, worse[k].x)
				}
				dropped := after.Speeds[k].Verdict == NotJudged && slices.ContainsFunc(after.Why, func(why string) bool { return strings.HasPrefix(why, after.Speeds[k].Mark.Label+" is not judged: ") })
				if after.Verdict == Good && before.Verdict != Good && !dropped {
					rt.Fatalf("the shutter became good from %v (%v): %v to %v", before.Verdict, before.Why, speeds[k].x, worse[k].x)
				}
			})
		})
	}
}

// A spread beyond the service limit stays so however much wider it gets, and what is
// erratic has service advised.
func TestAWiderSpreadBeyondTheLimitStaysBeyond(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(rt, "firings")
		_, service := Standard.SpreadLimits(n)
		x := rapid.SliceOfN(rapid.Float64Range(-0.5, 0.5), n, n).Draw(rt, "x")
		x[0], x[1] = -service/2*1.001, service/2*1.001
		wider := worsened["wider"](x, rapid.Float64Range(0, 20).Draw(rt, "by"))
		for _, x := range [][]float64{x, wider} {
			got := propertyJudged(rt, t, []judgeSpeed{{label: "1/8", u: 20e-6, common: 12e-6, x: x}})
			if got.Speeds[0].Verdict != ServiceAdvised || got.Verdict != ServiceAdvised {
				rt.Fatalf("%v: speed %v, shutter %v", x, got.Speeds[0].Verdict, got.Verdict)
			}
		}
	})
}
