package align

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/floats"

	"earshot/dsp"
)

// thud is a part of a movement in continuous time, t in samples from its onset:
// modes of a small metal part that start at once and die away within 2 ms.
func thud(t float64, hz ...float64) float64 {
	const rate = 48000
	if t <= 0 {
		return 0
	}
	sum := 0.0
	for i, f := range hz {
		sum += math.Exp(-t/(0.0015*rate)) * math.Sin(2*math.Pi*f*t/rate+float64(i)) / float64(len(hz))
	}
	return sum * (1 - math.Exp(-t/3))
}

// click is a sound in continuous time that holds nothing above 10 kHz to speak of,
// so that its samples say exactly where it lies. t is in samples from its middle.
func click(t float64) float64 {
	x := 0.0
	for _, m := range []struct{ hz, width, delay float64 }{{2100, 30, 0}, {3700, 18, 9}, {5200, 14, 22}, {6900, 10, 31}} {
		s := (t - m.delay) / m.width
		x += math.Exp(-s*s/2) * math.Sin(2*math.Pi*m.hz*(t-m.delay)/48000)
	}
	return 0.1 * x
}

// scene is noise with a sound at each of the instants, in samples.
func scene(noise float64, at []float64, sound func(i int, t float64) float64) *dsp.Held {
	rng := rand.New(rand.NewPCG(31, 32))
	x := make([]float64, int(at[len(at)-1])+9600)
	for k := range x {
		x[k] = noise * rng.NormFloat64()
	}
	for i, t := range at {
		for k := max(0, int(t)-1200); k < min(len(x), int(t)+2400); k++ {
			x[k] += sound(i, float64(k)-t)
		}
	}
	return &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: x}
}

// instants are n of them about 0.2 s apart, at fractions of a sample.
func instants(n int) (at []float64) {
	rng := rand.New(rand.NewPCG(41, 42))
	for i := range n {
		at = append(at, 9600*float64(i+1)+200*rng.Float64())
	}
	return at
}

func moved(at []float64, by func(i int) float64) (out []float64) {
	for i, t := range at {
		out = append(out, t+by(i))
	}
	return out
}

func locate(t *testing.T, src dsp.Source, loudest []float64) *Movements {
	t.Helper()
	m, err := LocateMovements(src, 0, loudest, math.Inf(1))
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Start.At) != len(loudest) || len(m.Stop.At) != len(loudest) || len(m.Start.U) != len(loudest) || len(m.Stop.U) != len(loudest) {
		t.Fatalf("%d starts, %d stops, %d uncertainties of %d sounds", len(m.Start.At), len(m.Stop.At), len(m.Start.U), len(loudest))
	}
	return m
}

// distant fails wherever it is read again.
type distant struct {
	dsp.Source
	err error
}

func (d *distant) ReadFramesAt([]float64, int64) (int, error) { return 0, d.err }

func TestMovementsThatCannotBeReadAgainSayWhy(t *testing.T) {
	src := &distant{&dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}}, errors.New("card removed")}
	if _, err := LocateMovements(src, 0, []float64{5000}, math.Inf(1)); !errors.Is(err, src.err) {
		t.Errorf("LocateMovements: %v, want %v", err, src.err)
	}
}

func TestStartAndStopOfAMovementAreToldApart(t *testing.T) {
	const lead = 144 // samples: 3 ms
	tests := []struct {
		name  string
		drop  float64 // dB of the start under the stop
		noise float64
		soft  bool
	}{
		{"a start 20 dB weaker than the stop is found", 20, 0.0003, true},
		{"a start 26 dB weaker in less noise too", 26, 0.0001, true},
		{"a start under the noise is none", 40, 0.003, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			at := instants(8)
			weak := math.Pow(10, -tt.drop/20)
			src := scene(tt.noise, at, func(_ int, t float64) float64 {
				return 0.3*weak*thud(t, 1900, 4300) + 0.3*thud(t-lead, 1500, 3100, 5600)
			})
			m := locate(t, src, moved(at, func(i int) float64 { return lead + 15*float64(i%3-1) }))
			for i := range at {
				start := at[i]
				if !tt.soft {
					start += lead
				}
				if math.Abs(m.Start.At[i]-start) > 12 || math.Abs(m.Stop.At[i]-at[i]-lead) > 12 {
					t.Errorf("movement %d from %.1f to %.1f, want %.1f to %.1f", i, m.Start.At[i], m.Stop.At[i], start, at[i]+lead)
				}
			}
			if !tt.soft {
				if m.Lead != 0 || m.Depth > tt.drop {
					t.Errorf("lead = %.1f samples, depth %.1f dB", m.Lead, m.Depth)
				}
				return
			}
			if math.Abs(m.Lead-lead) > 12 || math.Abs(m.Drop-tt.drop) > 4 || m.Depth < m.Drop {
				t.Errorf("lead = %.1f samples, drop %.1f dB, depth %.1f; want %d, %.0f and more than that", m.Lead, m.Drop, m.Depth, lead, tt.drop)
			}
		})
	}
}

// The closing of a fast firing starts while its opening still rings, and as loud as that
// is.
func TestAMovementRightAfterAnotherBeginsAfterIt(t *testing.T) {
	const apart, lead = 720, 288 // samples: 15 and 6 ms
	at := instants(5)
	src := scene(0.0005, at, func(_ int, t float64) float64 {
		return 0.1*thud(t+apart+lead, 1700, 4100) + 0.3*thud(t+apart, 1300, 2900, 5200) +
			0.1*thud(t+lead, 1900, 4300) + 0.3*thud(t, 1500, 3100, 5600)
	})
	m, err := LocateMovements(src, 0, at, apart)
	if err != nil {
		t.Fatal(err)
	}
	for i := range at {
		if math.Abs(m.Start.At[i]-at[i]+lead) > 12 || math.Abs(m.Stop.At[i]-at[i]) > 12 {
			t.Errorf("movement %d from %.1f to %.1f, want %.1f to %.1f", i, m.Start.At[i], m.Stop.At[i], at[i]-lead, at[i])
		}
	}
	if m = locate(t, src, at); math.Abs(m.Lead-lead) < 12 {
		t.Errorf("lead = %.1f samples though nothing was told of the other: the case tells nothing", m.Lead)
	}
}

func TestAMovementSoonerThanBladesMoveIsLookedForAllTheSame(t *testing.T) {
	at := instants(5)
	src := scene(0.0005, at, func(_ int, t float64) float64 { return 0.3 * thud(t, 1500, 3100, 5600) })
	for _, after := range []float64{0, 10, 300, 432, 440, math.Inf(1)} { // samples
		m, err := LocateMovements(src, 0, at, after)
		if err != nil {
			t.Fatal(err)
		}
		for i := range at {
			if math.Abs(m.Stop.At[i]-at[i]) > 12 {
				t.Errorf("%g after another: movement %d at %.1f, want %.1f", after, i, m.Stop.At[i], at[i])
			}
		}
	}
}

// A sound that grows once more within a millisecond has no stroke in it.
func TestASoundOfTwoRisesShorterThanAStrokeIsOnePart(t *testing.T) {
	at := instants(8)
	src := scene(0.0005, at, func(_ int, t float64) float64 {
		return 0.15*thud(t, 1900, 4300) + 0.3*thud(t-38, 1500, 3100, 5600)
	})
	m := locate(t, src, at)
	if m.Lead != 0 {
		t.Errorf("lead = %.1f samples, want none", m.Lead)
	}
	for i := range at {
		if math.Abs(m.Start.At[i]-at[i]) > 12 || m.Stop.At[i] != m.Start.At[i] {
			t.Errorf("sound %d from %.1f to %.1f, want %.1f", i, m.Start.At[i], m.Stop.At[i], at[i])
		}
	}
}

// Sounds made by one formula differ by nothing but the instant, so what is left
// between those and the times found is the error of the alignment.
func TestLikeSoundsAreTimedToATwentiethOfASample(t *testing.T) {
	at := instants(9)
	src := scene(1e-5, at, func(_ int, t float64) float64 { return click(t) })
	m := locate(t, src, moved(at, func(i int) float64 { return 20*float64(i%4) - 30 }))
	first := m.Start.At[0] - at[0]
	for i := range at {
		if off := m.Start.At[i] - at[i] - first; math.Abs(off) > 0.05 {
			t.Errorf("sound %d is %.3f samples from where the first says", i, off)
		}
	}
	if math.Abs(first) > 150 {
		t.Errorf("the onset lies %.1f samples from the sound's middle", first)
	}
}

func TestASoundUnlikeTheOthersKeepsItsOwnOnset(t *testing.T) {
	const odd = 3
	at := instants(7)
	src := scene(0.0005, at, func(i int, t float64) float64 {
		if i == odd {
			return 0.3 * thud(t, 8200, 9700, 11300)
		}
		return 0.3 * thud(t, 1500, 3100, 5600)
	})
	m := locate(t, src, at)
	for i := range at {
		if math.Abs(m.Start.At[i]-at[i]) > 6 {
			t.Errorf("sound %d begins at %.2f, want %.2f", i, m.Start.At[i], at[i])
		}
		if i != odd && m.Start.U[i] >= m.Start.U[odd] {
			t.Errorf("sound %d, like the others, is known to %.3f samples, the odd one to %.3f", i, m.Start.U[i], m.Start.U[odd])
		}
	}
}

func TestNoMovementsAreNoError(t *testing.T) {
	m := locate(t, &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}}, nil)
	if m.Lead != 0 || m.Start.Bias != 0 {
		t.Errorf("%+v, want nothing", m)
	}
	silent := &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: make([]float64, 48000)}
	for i, v := range append(locate(t, silent, []float64{9000, 20000, 30000}).Start.At, locate(t, silent, []float64{9000}).Start.U...) {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("value %d of silence is %v", i, v)
		}
	}
}

// The first of a sound that grows lies in the noise, so that it is picked late. A
// straight line, the slowest that a sound may grow, must be late by no more than
// twice the standard uncertainty or hardly more, and by more than that itself: else
// too much is said.
func TestAPickThatIsLateIsSaidToBeUncertain(t *testing.T) {
	tests := []struct {
		name        string
		grows       int     // samples from nothing to the end of what is looked at
		over        float64 // dB of it over the noise at that end
		least, most float64 // samples by which it is picked late
	}{
		{"a sound that grows over 0.5 ms, 25 dB over the noise", 24, 25, 2, 6},
		{"over 1 ms", 48, 25, 5, 10},
		{"over 2 ms", 96, 25, 10, 18},
		{"over 2 ms, 35 dB over the noise", 96, 35, 4, 8},
		{"over 2 ms, 19 dB over the noise", 96, 19, 16, 28},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			const trials, onset = 200, 96
			var late, said float64
			for seed := range uint64(trials) {
				rng := rand.New(rand.NewPCG(seed, 61))
				x := make([]float64, onset+tt.grows)
				for k := range x {
					x[k] = rng.NormFloat64()
				}
				for k := range x {
					x[k] *= math.Pow(10, -tt.over/20)
					if grown := float64(k-onset) + 0.5; grown > 0 {
						x[k] += grown / float64(tt.grows) * rng.NormFloat64()
					}
				}
				pick, u := pickWindow{to: len(x), otherwise: onset}.pick(x)
				late += (pick - onset) / trials
				said += u / trials
			}
			if late < tt.least || late > tt.most {
				t.Errorf("picked %.1f samples late, want %g to %g", late, tt.least, tt.most)
			}
			if late < said || late > 2.1*said {
				t.Errorf("picked %.1f samples late, said to be ± %.1f", late, said)
			}
		})
	}
}

func TestOnlyWhatRisesAgainHasAStopOfItsOwn(t *testing.T) {
	const bin = 12
	other := func(drop float64) *Movements { return &Movements{Lead: 20 * bin, Drop: drop} }
	falls := func(at int, to float64) (e []float64) { // a sound that falls by a decibel a bin, and another in it
		for i := range 40 {
			e = append(e, math.Pow(10, -float64(i)/10))
			if i >= at && at > 0 {
				e[i] += to * math.Pow(10, -float64(i-at)/10)
			}
		}
		return e
	}
	tests := []struct {
		name     string
		envelope []float64
		other    *Movements
		want     bool
	}{
		{"a second as loud, as late as the other's stop", falls(20, 1.1), other(3), true},
		{"a second 6 dB weaker, where the other's is not much louder than its start", falls(20, 0.25), other(3), true},
		{"a second 6 dB weaker, where the other's is louder by far", falls(20, 0.25), other(20), false},
		{"a second louder, where the other's is louder by far", falls(20, 2), other(20), true},
		{"a bounce 13 dB weaker", falls(20, 0.05), other(3), false},
		{"one that comes at half of the time", falls(10, 1.1), other(3), false},
		{"one that comes at twice the time", falls(38, 1.1), other(3), false},
		{"one a fifth later", falls(24, 1.1), other(3), true},
		{"none", falls(0, 0), other(3), false},
		{"no sound at all", nil, other(3), false},
		{"a sound cut short", falls(0, 0)[:5], other(3), false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := &Movements{bin: bin, envelope: tt.envelope}
			if tt.envelope == nil {
				m.bin = 0
			}
			if got := m.RisesAgain(tt.other); got != tt.want {
				t.Errorf("rises again = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestTheMeanIsOfTheSoundsThatAreAlike(t *testing.T) {
	const odd = 3
	at := instants(9)
	src := scene(0.003, at, func(i int, t float64) float64 {
		if i == odd {
			return 0.3 * (ring(t, 8200, 0.003) + ring(t, 9700, 0.003))
		}
		return opens(t)
	})
	m := locate(t, src, at)
	mean := m.Template(math.Inf(1)).waveform
	const margin, n, reach = 24, 480, 4 // samples: 0.5 ms before the start, 10 ms in all
	from := math.Floor(m.Start.At[0]) - margin
	alone := scene(0, at[:1], func(_ int, t float64) float64 { return opens(t) })
	clean, err := dsp.Excerpt(alone, 0, int64(from)-reach, n+2*reach)
	if err != nil {
		t.Fatal(err)
	}
	lag, rho := fineLag(clean, mean[:n], reach)
	if rho < 0.99 || math.Abs(lag-(m.Start.At[0]-margin-from)) > 0.5 {
		t.Errorf("the mean correlates with what all but one are by %.3f at %.2f samples, want nearly 1 at %.2f", rho, lag, m.Start.At[0]-margin-from)
	}
	if of := floats.Dot(mean[:n], mean[:n]) / floats.Dot(clean, clean); math.Abs(of-1) > 0.1 {
		t.Errorf("its energy is %.2f times that of one of them, want 1", of)
	}
	if lone := locate(t, src, at[:1]).Template(math.Inf(1)); lone.waveform != nil {
		t.Error("a mean of one, want none")
	}
}
