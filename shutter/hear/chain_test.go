package hear

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// mostOf is the largest total of any chain of the pairs, tried one by one, in which
// each opens at least rearm after the one before it closed; 0 for none at all.
func mostOf(r *recordedClip, pairs []pair, lead float64) float64 {
	most := 0.0
	for chosen := range 1 << len(pairs) {
		total, last := 0.0, -1
		for i := range pairs {
			if chosen>>i&1 == 0 {
				continue
			}
			total += pairs[i].evidence + pairs[i].likeness
			if last >= 0 {
				if r.sounds[pairs[i].open].at < r.sounds[pairs[last].close].at+rearm {
					total = math.Inf(-1)
					break
				}
				total += r.follows(&pairs[last], &pairs[i], lead)
			}
			last = i
		}
		most = math.Max(most, total)
	}
	return most
}

func TestBestChainIsTheBestOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := &recordedClip{}
		at := 0.0
		for range rapid.IntRange(2, 12).Draw(t, "sounds") {
			at += rapid.Float64Range(0.02, 0.9).Draw(t, "gap")
			r.sounds = append(r.sounds, sound{at: at})
		}
		var pairs []pair
		for range rapid.IntRange(0, 9).Draw(t, "pairs") {
			i := rapid.IntRange(0, len(r.sounds)-2).Draw(t, "open")
			j := rapid.IntRange(i+1, min(i+4, len(r.sounds)-1)).Draw(t, "close")
			pairs = append(pairs, pair{open: i, close: j, span: r.sounds[j].at - r.sounds[i].at,
				evidence: rapid.Float64Range(-8, 8).Draw(t, "evidence"), likeness: rapid.Float64Range(-5, 5).Draw(t, "likeness")})
		}
		slices.SortFunc(pairs, func(p, q pair) int {
			return cmp.Or(cmp.Compare(p.close, q.close), cmp.Compare(p.open, q.open))
		})
		lead := rapid.Float64Range(0, longestLead).Draw(t, "lead")
		set := r.best(t.Context(), pairs, lead)
		sum := 0.0
		for i := range set {
			sum += set[i].score()
			if i > 0 {
				sum += r.follows(&set[i-1], &set[i], lead)
			}
		}
		if want := mostOf(r, pairs, lead); math.Abs(sum-want) > 1e-9 {
			t.Errorf("the chain of %d adds up to %g, the best to %g", len(set), sum, want)
		}
	})
}

func TestARepeatedSpanSpeaksForTwoFirings(t *testing.T) {
	spans := func(stops float64) float64 { return repeats(&pair{span: 0.03}, &pair{span: 0.03 * math.Exp2(stops)}) }
	if again := spans(0); again < 2 || again > mostRepeat {
		t.Errorf("the same span again is worth %g, want 2 to %d", again, mostRepeat)
	}
	for stops := 0.01; stops < 0.32; stops += 0.01 {
		if spans(stops) > spans(stops-0.01) {
			t.Errorf("%.2f stops off is worth more than less", stops)
		}
	}
	if spans(1) <= spans(0.5) || spans(1) >= spans(0) {
		t.Errorf("half a stop off is worth %g, a stop %g, none %g; want a turn by a stop between", spans(0.5), spans(1), spans(0))
	}
	rapid.Check(t, func(t *rapid.T) {
		stops := rapid.Float64Range(0, 6).Draw(t, "stops")
		if up, down := spans(stops), spans(-stops); math.Abs(up-down) > 1e-9 || up > spans(0)+1e-9 {
			t.Errorf("%g stops up is worth %g and down %g, none %g", stops, up, down, spans(0))
		}
	})
}

func TestWindingTakesTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(rearm, 10).Draw(t, "gap")
		b := a + rapid.Float64Range(0, 10).Draw(t, "longer")
		if winding(a) > winding(b) || winding(b) > 0 {
			t.Errorf("winding(%g) = %g, winding(%g) = %g", a, winding(a), b, winding(b))
		}
	})
	if winding(1) != 0 || winding(0.3) >= -1 {
		t.Errorf("winding(1) = %g, want 0; winding(0.3) = %g, want below −1", winding(1), winding(0.3))
	}
}
