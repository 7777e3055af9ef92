package shutter

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"earshot/dsp"
)

// Hear finds the firings of a leaf shutter in one clip, in time order.
func Hear(h *dsp.Hearing, clip int) []Firing {
	r := newRoom(h)
	chosen := r.choose(r.pairs())
	var firings []Firing
	for _, p := range chosen {
		a, b := &r.sounds[p.open], &r.sounds[p.close]
		firings = append(firings, Firing{Clip: clip, Open: a.at, Close: b.at, Closed: true,
			U: math.Hypot(a.u, b.u), Edge: EdgeStart,
			Buzz: Buzz{Heard: p.buzz > 2, Level: 0}})
	}
	return firings
}

// choose finds the best set of pairs for the clip, given that one shutter has one
// sound of opening and one of closing.
func (r *room) choose(pairs []pair) []pair {
	if len(pairs) == 0 {
		return nil
	}
	sort.Slice(pairs, func(i, j int) bool {
		return pairs[i].close < pairs[j].close || pairs[i].close == pairs[j].close && pairs[i].open < pairs[j].open
	})
	var best []pair
	bestTotal := 0.0
	for _, seed := range r.seeds(pairs) {
		set, total := r.grow(pairs, seed)
		if total -= r.unexplained(set); total > bestTotal && convincing(set) {
			best, bestTotal = set, total
		}
	}
	return best
}

// seeds lists pairs to start from, those of the most evidence first, leaving out
// those that sound like an earlier one.
func (r *room) seeds(pairs []pair) []pair {
	const most = 12
	byEvidence := slices.Clone(pairs)
	slices.SortFunc(byEvidence, func(p, q pair) int { return cmp.Compare(q.evidence, p.evidence) })
	var seeds []pair
	for _, p := range byEvidence {
		if len(seeds) == most {
			break
		}
		if !slices.ContainsFunc(seeds, func(q pair) bool { return r.alike(p.open, q.open) && r.alike(p.close, q.close) }) {
			seeds = append(seeds, p)
		}
	}
	return seeds
}

// convincing tells whether the firings are such by themselves, and not only alike.
func convincing(set []pair) bool {
	const least = -1.5
	sum := 0.0
	for i := range set {
		sum += set[i].evidence
	}
	return sum > least*float64(len(set)) && (len(set) > 2 || sum > 0)
}

// unexplained is the evidence against a set of firings from the sounds that are
// like its openings or closings and yet are none.
func (r *room) unexplained(set []pair) float64 {
	const each = 2.5
	if len(set) == 0 {
		return 0
	}
	v := r.voice(set)
	known := map[int]bool{}
	for i := range set {
		known[set[i].open], known[set[i].close] = true, true
		if release, w := v.release(set[i].open); w > 0 && v.lead > 0 {
			known[release] = true
		}
	}
	limitOpen, limitClose := v.open.most(), v.close.most()
	strangers := 0
	for i := range r.sounds {
		like := v.open.dist[i] <= limitOpen || v.close.dist[i] <= limitClose
		if like && !known[i] && r.sounds[i].surprise() > 0 {
			strangers++
		}
	}
	return each * float64(strangers)
}

func (r *room) alike(i, j int) bool {
	return unlikeness(&r.sounds[i], &r.sounds[j]) < 4 && math.Abs(r.sounds[i].level-r.sounds[j].level) < 6
}

// grow finds the firings of a shutter that sounds like seed: those that the
// others are like, again and again until they stay the same.
func (r *room) grow(pairs []pair, seed pair) (set []pair, total float64) {
	const rounds = 5
	set = []pair{seed}
	for range rounds {
		v := r.voice(set)
		for i := range pairs {
			pairs[i].likeness = v.likeness(&pairs[i])
		}
		var next []pair
		next, total = r.best(pairs)
		if len(next) == 0 || same(next, set) {
			return next, total
		}
		set = next
	}
	return set, total
}

func same(a, b []pair) bool {
	return slices.EqualFunc(a, b, func(p, q pair) bool { return p.open == q.open && p.close == q.close })
}

// rearm is the least time in which a shutter can be wound and fired again, s.
const rearm = 0.2

// best is the sequence of pairs with the largest total score, no two of which
// overlap, by dynamic programming. pairs are ordered by closing.
func (r *room) best(pairs []pair) ([]pair, float64) {
	const back = 200 // pairs looked back over: more than overlap within longestSpan
	n := len(pairs)
	total := make([]float64, n) // of the best sequence that ends with pair i
	from := make([]int, n)      // the pair before it, or −1
	upTo := make([]int, n+1)    // the best of the first i to end with, or −1
	upTo[0] = -1
	for i := range pairs {
		p := &pairs[i]
		opens := r.sounds[p.open].at - rearm
		k := sort.Search(i, func(k int) bool { return r.sounds[pairs[k].close].at > opens })
		total[i], from[i] = p.score(), -1
		if b := upTo[k]; b >= 0 && total[b] > 0 {
			total[i], from[i] = p.score()+total[b]+r.follows(&pairs[b], p), b
		}
		for b := max(0, k-back); b < k; b++ {
			if t := p.score() + total[b] + r.follows(&pairs[b], p); t > total[i] {
				total[i], from[i] = t, b
			}
		}
		upTo[i+1] = upTo[i]
		if upTo[i] < 0 || total[i] > total[upTo[i]] {
			upTo[i+1] = i
		}
	}
	last := upTo[n]
	if last < 0 || total[last] <= 0 {
		return nil, 0
	}
	var set []pair
	for i := last; i >= 0; i = from[i] {
		set = append(set, pairs[i])
	}
	slices.Reverse(set)
	return set, total[last]
}

// follows weighs q as the next firing after p.
func (r *room) follows(p, q *pair) float64 {
	return repeats(p, q) + winding(r.sounds[q.open].at-r.sounds[p.close].at)
}

// repeats weighs the spans of two successive firings, as a logarithm of odds
// against two spans by chance. A shutter repeats what it did, unless the dial was
// turned, mostly by a stop.
func repeats(p, q *pair) float64 {
	const (
		scatter = 0.08 // stops, shot to shot
		turned  = 0.3  // of the firings follow a turn of the dial,
		bystop  = 0.5  // of these so many by about a stop,
		stop    = 0.2  // give or take this,
		widest  = 6.0  // stops: the others by anything between
		unlike  = 2.0  // stops: how far the spans of two pairs by chance lie apart
	)
	step := math.Abs(math.Log2(q.span / p.span))
	firing := (1-turned)*normal(step/scatter)/scatter + turned*(bystop*normal((step-1)/stop)/stop/2+(1-bystop)/widest)
	chance := normal(step/unlike) / unlike
	return math.Min(math.Log(firing/chance), 3)
}

// winding weighs the time in s between a closing and the next opening: a shutter
// must be wound or cocked, which takes most of a second.
func winding(gap float64) float64 {
	const usual = 0.8
	return math.Min(0, 2*math.Log(gap/usual))
}

// normal is the density of the standard normal distribution.
func normal(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// voice is what the openings and the closings of one shutter sound like, and how
// unusual that is among the other sounds of the clip.
type voice struct {
	open, close class
	lead        float64 // s from a reflex's first sound to the opening; 0 where there is none
	r           *room
}

type class struct {
	members []int
	centre  sound
	dist    []float64 // of every sound of the clip to the centre
	spread  float64
	others  []float64 // sorted distances of the sounds that are not members
}

func (r *room) voice(set []pair) *voice {
	var opens, closes []int
	for _, p := range set {
		opens = append(opens, p.open)
		closes = append(closes, p.close)
	}
	v := &voice{open: r.class(opens), close: r.class(closes), r: r}
	var leads []float64
	for _, p := range set {
		if release, w := v.release(p.open); w > 0 {
			leads = append(leads, r.sounds[p.open].at-r.sounds[release].at)
		}
	}
	if 2*len(leads) > len(set) {
		sort.Float64s(leads)
		v.lead = leads[len(leads)/2]
	}
	return v
}

func (r *room) class(members []int) class {
	c := class{members: members, dist: make([]float64, len(r.sounds))}
	level := 0.0
	for b := range c.centre.bands {
		var v, n []float64
		for _, m := range members {
			v = append(v, r.sounds[m].bands[b]-r.sounds[m].level)
			n = append(n, r.sounds[m].noise[b]-r.sounds[m].level)
		}
		sort.Float64s(v)
		sort.Float64s(n)
		c.centre.bands[b], c.centre.noise[b] = v[len(v)/2], n[len(n)/2]
	}
	for _, m := range members {
		level += r.sounds[m].level / float64(len(members))
	}
	for b := range c.centre.bands {
		c.centre.bands[b] += level
		c.centre.noise[b] += level
	}
	c.centre.level = level
	in := map[int]bool{}
	sum := 0.0
	for _, m := range members {
		in[m] = true
	}
	for i := range r.sounds {
		s := &r.sounds[i]
		d := math.Hypot(unlikeness(s, &c.centre), (s.level-level)/3)
		c.dist[i] = d
		if in[i] {
			sum += d * d
		} else if s.level > level-10 {
			c.others = append(c.others, d)
		}
	}
	sort.Float64s(c.others)
	c.spread = math.Sqrt((sum + 4*3*3) / float64(len(members)+3)) // 3 members' worth of prior at 3.5 dB
	return c
}

// most is the distance from the centre within which most of the members lie.
func (c *class) most() float64 {
	var own []float64
	for _, m := range c.members {
		own = append(own, c.dist[m])
	}
	sort.Float64s(own)
	return own[len(own)*3/4]
}

// weight is the logarithm of the odds that sound i is of the class.
func (c *class) weight(i int) float64 {
	d := c.dist[i]
	under := sort.SearchFloat64s(c.others, d)
	chance := float64(under+1) / float64(len(c.others)+1)
	return within(-d*d/(2*c.spread*c.spread)-math.Log(c.spread/2)-math.Log(chance), -6, 5)
}

// Bounds of the time from a reflex's release, on which the blades close, to the
// opening for the exposure, and how well one camera keeps to its own, in s.
const (
	shortestLead = 0.04
	longestLead  = 0.15
	leadScatter  = 0.006
)

// release looks before an opening for the sound of the blades closing on release,
// as they do in a reflex body, and returns it and how alike it is, 0 for none.
func (v *voice) release(open int) (sound int, weight float64) {
	at := v.r.sounds[open].at
	for i := open - 1; i >= 0 && at-v.r.sounds[i].at < longestLead; i-- {
		l := at - v.r.sounds[i].at
		if l < shortestLead || v.lead > 0 && math.Abs(l-v.lead) > leadScatter {
			continue
		}
		if w := math.Min(v.close.weight(i), v.r.sounds[i].surprise()); w > weight {
			sound, weight = i, w
		}
	}
	return sound, weight
}

func (v *voice) likeness(p *pair) float64 {
	sum := v.open.weight(p.open) + v.close.weight(p.close)
	if v.lead > 0 {
		_, w := v.release(p.open)
		sum += w
	}
	return sum
}
