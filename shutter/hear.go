package shutter

import (
	"math"
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
	first, total := r.best(pairs)
	best, bestTotal := first, total
	tried := 0
	seeds := append([]pair(nil), first...)
	sort.Slice(seeds, func(i, j int) bool { return seeds[i].evidence > seeds[j].evidence })
	for _, seed := range seeds {
		if tried++; tried > 16 {
			break
		}
		set := []pair{seed}
		var total float64
		for range 4 {
			v := r.voice(set)
			for i := range pairs {
				pairs[i].likeness = v.likeness(&pairs[i])
			}
			set, total = r.best(pairs)
			if len(set) == 0 {
				break
			}
		}
		if len(set) > 0 && (tried == 1 || total > bestTotal) {
			best, bestTotal = set, total
		}
	}
	return best
}

// rearm is the least time in which a shutter can be wound and fired again, s.
const rearm = 0.2

// best is the set of pairs with the largest total score, no two of which overlap:
// weighted interval scheduling. pairs are ordered by closing.
func (r *room) best(pairs []pair) ([]pair, float64) {
	n := len(pairs)
	total := make([]float64, n+1)
	from := make([]int, n+1) // index into total before pair i−1, or −1 where it is left out
	for i := 1; i <= n; i++ {
		p := &pairs[i-1]
		total[i], from[i] = total[i-1], -1
		if s := p.score(); s > 0 {
			opens := r.sounds[p.open].at - rearm
			k := sort.Search(i-1, func(k int) bool { return r.sounds[pairs[k].close].at > opens })
			if total[k]+s > total[i] {
				total[i], from[i] = total[k]+s, k
			}
		}
	}
	var set []pair
	for i := n; i > 0; {
		if from[i] < 0 {
			i--
			continue
		}
		set = append(set, pairs[i-1])
		i = from[i]
	}
	for i, j := 0, len(set)-1; i < j; i, j = i+1, j-1 {
		set[i], set[j] = set[j], set[i]
	}
	return set, total[n]
}

// voice is what the openings and the closings of one shutter sound like, and how
// unusual that is among the other sounds of the clip.
type voice struct {
	open, close class
	r           *room
}

type class struct {
	centre sound
	dist   []float64 // of every sound of the clip to the centre
	spread float64
	others []float64 // sorted distances of the sounds that are not members
}

func (r *room) voice(set []pair) *voice {
	var opens, closes []int
	for _, p := range set {
		opens = append(opens, p.open)
		closes = append(closes, p.close)
	}
	return &voice{open: r.class(opens), close: r.class(closes), r: r}
}

func (r *room) class(members []int) class {
	c := class{dist: make([]float64, len(r.sounds))}
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

// weight is the logarithm of the odds that sound i is of the class.
func (c *class) weight(i int) float64 {
	d := c.dist[i]
	under := sort.SearchFloat64s(c.others, d)
	chance := float64(under+1) / float64(len(c.others)+1)
	return within(-d*d/(2*c.spread*c.spread)-math.Log(chance), -6, 4)
}

func (v *voice) likeness(p *pair) float64 {
	return v.open.weight(p.open) + v.close.weight(p.close)
}
