package scene

import (
	"cmp"
	"context"
	"math"
	"slices"

	"earshot/dsp"
)

// What may be a firing at all.
const (
	shortest     = 8    // ms: what is shorter is one sound
	longest      = 9000 // ms: 4 s, more than a stop slow
	farthest     = 60   // sounds from opening to closing
	leastOpening = 9    // dB an opening rises, and a closing:
	leastClosing = 7    // it may rise out of what rings
	unequal      = 30   // dB: ends further apart are of two things
)

// endOf is how long after its beginning a movement makes sounds of its own, ms: an end stop
// follows within 8 and a bounce within 6 (common practice, no source).
const endOf = 13

// arc is an opening, a closing, and perhaps a release before, indices of sounds.
type arc struct {
	open, close, release int // release: −1 for none
	f                    [numArc]float32
	score, p             float64
}

// first is the sound it begins with.
func (a *arc) first() int {
	if a.release >= 0 {
		return a.release
	}
	return a.open
}

func (a *arc) dot(w *Weights) (sum float64) {
	for f, x := range a.f {
		sum += w[f] * float64(x)
	}
	return sum
}

// clip is a clip with the arcs that its sounds may make.
type clip struct {
	*view
	s                       []sound
	arcs                    []arc
	focal                   bool      // two curtains that sound alike
	unlikeOpen, unlikeClose []float64 // of each sound to the class held, dB
}

// newClip finds the sounds of a clip and the arcs they may make. Of those with one opening
// it keeps the best, as w weighs them while nothing is known of the shutter.
func newClip(ctx context.Context, r Recording, w *Weights) *clip {
	c := &clip{view: newView(r.Levels, r.Step), focal: r.Curtains}
	c.s = c.sounds()
	c.attach(c.s, r.Spectra)
	c.unlikeOpen, c.unlikeClose = make([]float64, len(c.s)), make([]float64, len(c.s))
	for i := range c.s {
		if ctx.Err() != nil {
			break
		}
		c.addArcs(i, w)
	}
	return c
}

// kept is how many arcs with one opening are kept, of those with a release as of those
// without.
const kept = 12

// addArcs adds the arcs that open with sound i.
func (c *clip) addArcs(i int, w *Weights) {
	a := &c.s[i]
	if a.best < leastOpening {
		return
	}
	release := c.releaseOf(i)
	var plain, released []arc
	for j := i + 1; j < len(c.s) && j <= i+farthest; j++ {
		b := &c.s[j]
		span := float64(b.at-a.at) * c.ms
		if span > longest {
			break
		}
		if span < shortest || b.best < leastClosing || math.Abs(a.loud-b.loud) > unequal {
			continue
		}
		plain = append(plain, c.arc(i, j, -1))
		if release >= 0 {
			released = append(released, c.arc(i, j, release))
		}
	}
	for _, some := range [][]arc{plain, released} {
		for k := range some {
			some[k].score = some[k].dot(w)
		}
		slices.SortStableFunc(some, func(x, y arc) int { return cmp.Compare(y.score, x.score) })
		c.arcs = append(c.arcs, some[:min(kept, len(some))]...)
	}
}

// releaseOf is the sound that the release of a reflex body may have begun with, if sound i
// is the opening: it comes out of silence 40 to 130 ms before. −1 for none.
func (c *clip) releaseOf(i int) int {
	const soonest, latest, rises, quiet = 40, 130, 12, 12 // ms, ms, dB, dB
	for k := i - 1; k >= 0; k-- {
		before := float64(c.s[i].at-c.s[k].at) * c.ms
		if before > latest {
			break
		}
		if before >= soonest && c.s[k].best >= rises && c.loudest(c.s[k].at-100, c.s[k].at-endOf+1, 0) < c.s[k].loud-quiet {
			return k
		}
	}
	return -1
}

// loudest is the level in an ear of the loudest sound that begins from one time to another.
func (c *clip) loudest(from, to, e int) float64 {
	const distinct = 8 // dB that a sound must rise to count
	most := -200.0
	for i := c.since(from); i < len(c.s) && c.s[i].at < to; i++ {
		if l := c.s[i].level[e]; l > most && c.s[i].best > distinct {
			most = l
		}
	}
	return most
}

// since is the first sound at a time or after.
func (c *clip) since(t int) int {
	i, _ := slices.BinarySearchFunc(c.s, t, func(s sound, t int) int { return s.at - t })
	return i
}

// ear is the one in which both ends stand out most.
func ear(a, b *sound) (best int) {
	most := -1.0
	for e := range dsp.NumEars {
		if p := math.Min(a.prom[e], b.prom[e]); p > most {
			best, most = e, p
		}
	}
	return best
}

// over tells how near a level comes to another, from 0 at 25 dB below to 1 at the same.
func over(level, reference float64) float64 {
	const below = 25
	return within((level-reference+below)/below, 0, 1.4)
}

// arc describes one arc but for what a class must tell.
func (c *clip) arc(i, j, k int) arc {
	x := arc{open: i, close: j, release: k}
	a, b := &c.s[i], &c.s[j]
	e := ear(a, b)
	span := float64(b.at-a.at) * c.ms
	weaker := math.Min(a.level[e], b.level[e])
	begin := c.s[x.first()].at
	set := func(f int, v float64) { x.f[f] = float32(v) }
	set(fBias, 1)
	set(fPromOpen, within(a.best/15, 0, 1))
	set(fPromClose, within(b.best/15, 0, 1))
	set(fStrongOpen, within((a.best-15)/20, 0, 1))
	set(fStrongClose, within((b.best-15)/20, 0, 1))
	set(fQuickOpen, within(a.quick/20, 0, 1))
	set(fQuickClose, within(b.quick/20, 0, 1))
	set(fBalance, within(math.Abs(a.loud-b.loud)/20, 0, 1.5))
	set(fBefore, over(c.loudest(begin-150, begin-endOf, e), a.level[e]))
	set(fLongBefore, over(c.loudest(begin-600, begin-150, e), a.level[e]))
	set(fAfter, over(c.loudest(b.at+endOf, b.at+150, e), b.level[e]))
	set(fLongAfter, over(c.loudest(b.at+150, b.at+600, e), b.level[e]))
	set(fInside, over(c.loudest(a.at+endOf, b.at-2, e), weaker))
	set(fShort, within(math.Log2(30/span), 0, 2)/2)
	set(fLong, within(math.Log2(span/1000), 0, 3)/3)
	if k >= 0 {
		set(fRelease, 1)
	}
	buzz := c.buzz(&x, e, begin, span)
	set(fBuzz, buzz)
	set(fWant, c.want(a, e, begin, span, buzz))
	if !c.focal {
		set(fAlike, within(1-unlike(a.like, b.like)/neutral, 0, 1)*(1-math.Max(0, buzz)))
	}
	set(fBusy, within(float64(c.company(a.at-1000, a.at, e, weaker)+c.company(b.at+1, b.at+1000, e, weaker))/20, 0, 1))
	set(fCrowd, c.crowd(&x, e, begin, weaker))
	return x
}

// Times of what a buzz is told by, ms.
const (
	buzzFrom   = 40  // shorter spans have no room for one
	mayBuzz    = 130 // from here on an escapement is mostly still in gear
	clickRings = 14
)

// buzz is how much louder it is between the ends than before and after, as far as 10 dB go.
func (c *clip) buzz(x *arc, e, begin int, span float64) float64 {
	if span <= buzzFrom {
		return 0
	}
	a, b := c.s[x.open].at, c.s[x.close].at
	between := c.median(e, a+int(0.3*(span-20))+clickRings, b-2)
	before, after := c.median(e, begin-160, begin-4), c.median(e, b+90, b+250)
	return within((between-math.Max(c.floorAt(e, a), math.Min(before, after)))/10, -0.5, 1)
}

// want is how surely a buzz would be heard, where none is: 30 dB under the click it must
// stand out of the noise.
func (c *clip) want(a *sound, e, begin int, span, buzz float64) float64 {
	const under, standsOut = 30, 3 // dB
	if span <= buzzFrom {
		return 0
	}
	noise := math.Max(c.median(e, begin-160, begin-4), c.floorAt(e, a.at))
	heard := within((a.level[e]-under-noise-standsOut)/10, 0, 1)
	return heard * within(math.Log2(span/mayBuzz), 0, 1) * within(1-buzz*3, 0, 1)
}

// asLoud is how much weaker than an end a sound may be, dB, to count as one like it.
const asLoud = 12

// company is how many sounds as loud begin from one time to another.
func (c *clip) company(from, to, e int, level float64) (n int) {
	for i := c.since(from); i < len(c.s) && c.s[i].at < to; i++ {
		if c.s[i].level[e] > level-asLoud {
			n++
		}
	}
	return n
}

// crowd is how many other sounds as loud lie within and about an arc, on a scale of
// doublings: a firing stands alone; a ratchet, a hand at a keyboard, a speaker don't.
func (c *clip) crowd(x *arc, e, begin int, level float64) float64 {
	const around = 250 // ms
	a, b := c.s[x.open].at, c.s[x.close].at
	n := 0.0
	for i := c.since(begin - around); i < len(c.s) && c.s[i].at < b+around; i++ {
		s := &c.s[i]
		own := s.at >= begin && s.at <= a+endOf || s.at >= b-2 && s.at <= b+endOf
		if !own && s.level[e] >= level-asLoud {
			n++
		}
	}
	return within(math.Log2(1+n)/3, 0, 1.4)
}
