package clock

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// ticking makes the onsets of a clock as a recorder whose clock is off times them.
type ticking struct {
	every, seconds, ppm float64
	jitter, uneven      float64
	missed, doubled     float64 // shares
	others              int
}

func (c ticking) onsets(rnd *rand.Rand) []float64 {
	var out []float64
	for k := 0; float64(k)*c.every < c.seconds; k++ {
		if rnd.Float64() < c.missed {
			continue
		}
		t := 0.4 + float64(k)*c.every + float64(k%2)*c.uneven + c.jitter*rnd.NormFloat64()
		out = append(out, t*(1+c.ppm*1e-6))
		if rnd.Float64() < c.doubled {
			out = append(out, t*(1+c.ppm*1e-6)+0.012+0.03*rnd.Float64())
		}
	}
	for range c.others {
		out = append(out, rnd.Float64()*c.seconds)
	}
	slices.Sort(out)
	return out
}

func TestTheRateOfARecorderIsFound(t *testing.T) {
	five := ticking{every: 1, seconds: 300, ppm: 37, jitter: 0.3e-3}
	with := func(change func(*ticking)) ticking {
		c := five
		change(&c)
		return c
	}
	for _, c := range []struct {
		name string
		ticking
	}{
		{"five minutes of even ticks", five},
		{"a recorder that is slow by 90 ppm", with(func(c *ticking) { c.ppm = -90 })},
		{"a fifth of the ticks not heard", with(func(c *ticking) { c.missed = 0.2 })},
		{"a third of the ticks heard twice", with(func(c *ticking) { c.doubled = 0.33 })},
		{"tick and tock 60 ms apart from even", with(func(c *ticking) { c.uneven = 0.06 })},
		{"two hundred other sounds", with(func(c *ticking) { c.others = 200 })},
		{"all of that at once", with(func(c *ticking) { c.missed, c.doubled, c.uneven, c.others = 0.15, 0.2, 0.03, 100 })},
		{"a watch of five beats a second, one minute", ticking{every: 0.2, seconds: 60, ppm: 20, jitter: 0.1e-3, uneven: 0.004}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rate, err := Of(c.onsets(rand.New(rand.NewPCG(3, 5))), c.every)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(rate.PPM-c.ppm) > 2 || rate.U95 > 2 {
				t.Errorf("%.2f ± %.2f ppm, want %.2f within 2", rate.PPM, rate.U95, c.ppm)
			}
		})
	}
}

// The stated uncertainty holds in 95 of 100 runs, and the worst of them is within 2 ppm.
func TestTheUncertaintyOfARateHoldsAsOftenAsItSays(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 13))
	const runs = 500
	within, worst := 0, 0.0
	for range runs {
		c := ticking{every: 1, seconds: 300, ppm: 200 * (rnd.Float64() - 0.5), jitter: 0.3e-3, missed: 0.1, doubled: 0.1, uneven: 0.02 * rnd.Float64(), others: 30}
		rate, err := Of(c.onsets(rnd), c.every)
		if err != nil {
			t.Fatal(err)
		}
		off := math.Abs(rate.PPM - c.ppm)
		worst = max(worst, off)
		if off <= rate.U95 {
			within++
		}
	}
	share := 100 * float64(within) / runs
	t.Logf("within U95: %.1f %% of %d runs; worst error %.2f ppm", share, runs, worst)
	if share < 93 || share > 98 {
		t.Errorf("%.1f %% within U95, want 93 to 98", share)
	}
	if worst > 2 {
		t.Errorf("an error of %.2f ppm, want at most 2", worst)
	}
}

func TestWhatDoesNotTickIsRefused(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, c := range []struct {
		name   string
		onsets []float64
		want   error
	}{
		{"ten ticks", ticking{every: 1, seconds: 10}.onsets(rnd), ErrTooShort},
		{"nothing", nil, ErrTooShort},
		{"sounds at random", ticking{every: 1, seconds: 300, missed: 1, others: 300}.onsets(rnd), ErrNoBeat},
		{"a clock of another beat", ticking{every: 0.75, seconds: 300}.onsets(rnd), ErrNoBeat},
		{"all at one instant", make([]float64, 100), ErrTooShort},
	} {
		t.Run(c.name, func(t *testing.T) {
			if rate, err := Of(c.onsets, 1); !errors.Is(err, c.want) {
				t.Errorf("Of = %+v, %v; want %v", rate, err, c.want)
			}
		})
	}
}

// The folded beat may begin between a tick and its tock, and either may be heard more
// often than the other.
func TestTickAndTockLieAsFarOffEvenWhicheverComesFirst(t *testing.T) {
	for seed := range uint64(20) {
		onsets := ticking{every: 1, seconds: 120, ppm: 40, jitter: 0.3e-3, uneven: 0.06, missed: 0.1}.onsets(rand.New(rand.NewPCG(seed, 1)))
		rate, err := Of(onsets, 1)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(math.Abs(rate.Uneven)-0.06) > 1e-3 {
			t.Errorf("seed %d: %.4f s off even, want 0.06", seed, rate.Uneven)
		}
	}
}

func TestStartingLaterLeavesTheRateAsItIs(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		onsets := ticking{every: 1, seconds: 120, ppm: 40, jitter: 0.3e-3, missed: 0.1}.onsets(rand.New(rand.NewPCG(rapid.Uint64().Draw(r, "seed"), 1)))
		shift := rapid.Float64Range(0, 100).Draw(r, "shift")
		later := make([]float64, len(onsets))
		for i, t := range onsets {
			later[i] = t + shift
		}
		a, errA := Of(onsets, 1)
		b, errB := Of(later, 1)
		if errA != nil || errB != nil || math.Abs(a.PPM-b.PPM) > 0.01 || a.Ticks != b.Ticks {
			r.Fatalf("%+v (%v), later %+v (%v)", a, errA, b, errB)
		}
	})
}
