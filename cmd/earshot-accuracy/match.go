package main

import "math"

// match pairs references with estimates one to one, so that as many as possible are
// paired; near says which may be. It returns for each reference the index of its
// estimate, or −1. This is the maximum matching by which mir_eval counts onsets
// (C. Raffel et al., ISMIR 2014), found by augmenting paths [Kuhn 1955].
func match(references, estimates int, near func(reference, estimate int) bool) []int {
	owner := make([]int, estimates) // the reference that an estimate is paired with, or −1
	for e := range owner {
		owner[e] = -1
	}
	var seen []bool
	var augment func(r int) bool
	augment = func(r int) bool {
		for e := range owner {
			if seen[e] || !near(r, e) {
				continue
			}
			seen[e] = true
			if owner[e] < 0 || augment(owner[e]) {
				owner[e] = r
				return true
			}
		}
		return false
	}
	for r := range references {
		seen = make([]bool, estimates)
		augment(r)
	}
	of := make([]int, references)
	for r := range of {
		of[r] = -1
	}
	for e, r := range owner {
		if r >= 0 {
			of[r] = e
		}
	}
	return of
}

// count is how many references there are, how many estimates, and how many of them
// belong together.
type count struct{ references, estimates, right int }

// countPaired counts what match has paired.
func countPaired(of []int, estimates int) count {
	n := count{references: len(of), estimates: estimates}
	for _, e := range of {
		if e >= 0 {
			n.right++
		}
	}
	return n
}

// countOnsets scores single onsets as mir_eval does: an estimate may be within a
// window, s, of its reference, either way and inclusive.
func countOnsets(references, estimates []float64, window float64) count {
	of := match(len(references), len(estimates), func(r, e int) bool { return math.Abs(references[r]-estimates[e]) <= window })
	return countPaired(of, len(estimates))
}

func (c *count) add(d count) {
	c.references += d.references
	c.estimates += d.estimates
	c.right += d.right
}

// recall is the share of the references found, 1 where there are none.
func (c count) recall() float64 { return share(c.right, c.references) }

// precision is the share of the estimates that are right, 1 where there are none.
func (c count) precision() float64 { return share(c.right, c.estimates) }

// f1 is the harmonic mean of both, 0 where nothing is right.
func (c count) f1() float64 {
	if c.right == 0 {
		return 0
	}
	return 2 * c.recall() * c.precision() / (c.recall() + c.precision())
}

func share(part, whole int) float64 {
	if whole == 0 {
		return 1
	}
	return float64(part) / float64(whole)
}
