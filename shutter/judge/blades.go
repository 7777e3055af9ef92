package judge

import (
	"fmt"
	"math"
	"strings"

	"earshot/shutter"
	"earshot/shutter/internal/pick"
)

// The limits within which blades move like those of the other firings of a clip. A lazy
// movement exceeds both: a size, and a multiple of the scatter of the other firings.
const (
	lazyDrawn   = 2.0 // times as long drawn; and dB weaker, as what takes so long is
	lazyApart   = 4   // dB weaker against the others than the other end of the firing is, which is as far from the recorder
	lazyScatter = 4.5 // standard deviations, as told by the median absolute deviation
	lazyLevel   = 1   // dB, the least that levels are taken to scatter
	lazyRise    = 0.3 // stops, the least that rise times are taken to scatter
)

// weakened is by how many dB a movement is weaker if it takes so many times as long over the
// same way. Its speed on arrival is less by that factor, and the amplitude of its sound goes
// with the speed.
func weakened(drawn float64) float64 { return 20 * math.Log10(drawn) }

// usual is how far the blades of a clip's firings scatter: levels in dB, and rise times
// in stops.
type usual struct{ level, drawn float64 }

// bladesOf is how the openings or the closings of a clip scatter.
func (j *judging) bladesOf(clip int, of func(*shutter.Firing) shutter.Blades) usual {
	var levels, drawn []float64
	for i := range j.check.Firings {
		f := &j.check.Firings[i].Firing
		if b := of(f); f.Clip == clip && b.Level != 0 {
			levels = append(levels, b.Strength)
			if b.Drawn > 0 {
				drawn = append(drawn, math.Log2(b.Drawn))
			}
		}
	}
	return usual{max(lazyLevel, shutter.RobustSD(levels)), max(lazyRise, shutter.RobustSD(drawn))}
}

// lazyBlades finds firings in which an opening or a closing is much weaker or longer
// drawn than in the other firings of the clip, or the blades bounce open again.
func (j *judging) lazyBlades() {
	opens, closes := map[int]usual{}, map[int]usual{}
	for clip := range j.clips() {
		opens[clip] = j.bladesOf(clip, openingOf)
		closes[clip] = j.bladesOf(clip, closingOf)
	}
	for _, t := range j.trials {
		var lazy []int
		var whys []string
		alike := map[string][]int{}
		for _, i := range pick.At(t.counted, j.unexplained(t)) {
			f := &j.check.Firings[i].Firing
			if why := laziness(f, opens[f.Clip], closes[f.Clip]); why != "" {
				if alike[why] == nil {
					whys = append(whys, why)
				}
				lazy, alike[why] = append(lazy, i), append(alike[why], i)
			}
		}
		for k, why := range whys {
			whys[k] = fmt.Sprintf("in %s %s", firingsText(alike[why]), why)
		}
		if len(lazy) > 0 {
			j.add(t, LazyBlades, lazy, strings.Join(whys, "; "))
		}
	}
}

// laziness says what is lazy about a firing, empty where nothing is.
func laziness(f *shutter.Firing, open, close usual) string {
	o, c := f.Opening, f.Closing
	switch {
	case f.Bounce > 0:
		return fmt.Sprintf("the blades bounced open again %s after closing", shutter.TimeText(f.Bounce))
	case open.weaker(o, c):
		return fmt.Sprintf("the opening is %.0f dB weaker than in the others", -o.Strength)
	case close.weaker(c, o):
		return fmt.Sprintf("the closing is %.0f dB weaker than in the others", -c.Strength)
	case open.longer(o):
		return fmt.Sprintf("the opening is drawn out %.1f times as long as in the others", o.Drawn)
	case close.longer(c):
		return fmt.Sprintf("the closing is drawn out %.1f times as long as in the others", c.Drawn)
	}
	return ""
}

// weaker tells whether blades are much weaker than usual, and much weaker than at the other
// end of the firing. It is false where the other end was not measured, as in very fast
// firings: both ends may then be weaker alike.
func (u usual) weaker(b, other shutter.Blades) bool {
	return other.Level != 0 && b.Strength <= -max(weakened(lazyDrawn), lazyScatter*u.level) && b.Strength <= other.Strength-lazyApart
}

// longer tells whether blades move for much longer than usual and are weaker for it: their
// strength must be nearer to that of blades so slow than to the usual one. A sound long
// before a strike of usual strength is another sound, and so is a louder one long after.
func (u usual) longer(b shutter.Blades) bool {
	return b.Drawn >= lazyDrawn && math.Log2(b.Drawn) >= lazyScatter*u.drawn && b.Strength <= -weakened(b.Drawn)/2
}

func openingOf(f *shutter.Firing) shutter.Blades { return f.Opening }

func closingOf(f *shutter.Firing) shutter.Blades { return f.Closing }

// clips are the clips that there are firings of.
func (j *judging) clips() map[int]bool {
	clips := map[int]bool{}
	for i := range j.check.Firings {
		clips[j.check.Firings[i].Clip] = true
	}
	return clips
}
