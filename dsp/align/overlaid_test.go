package align

import (
	"errors"
	"math"
	"testing"

	"earshot/dsp"
)

// ring is a damped tone of an amplitude of 1 that begins at t = 0, in samples.
func ring(t, hz, decay float64) float64 {
	const rate = 48000
	if t <= 0 {
		return 0
	}
	return math.Exp(-t/(decay*rate)) * math.Sin(2*math.Pi*hz*t/rate)
}

// opens and closes are two movements that have one of their tones in common; either
// rings on for longer than the shortest lag between them.
func opens(t float64) float64  { return 0.3 * (ring(t, 1700, 0.003) + ring(t, 4100, 0.003)) }
func closes(t float64) float64 { return 0.3 * (ring(t, 2500, 0.004) + ring(t, 4100, 0.003)) }

// thirtyUnder is noise 30 dB under the amplitude of one such tone.
const thirtyUnder = 0.3 * 0.0316

// taught is what nine movements that came by themselves tell of their kind.
func taught(t *testing.T, sound func(float64) float64) Template {
	t.Helper()
	at := instants(9)
	return locate(t, scene(thirtyUnder, at, func(_ int, t float64) float64 { return sound(t) }), at).Template(math.Inf(1))
}

func TestTwoMovementsInOneSoundAreFound(t *testing.T) {
	const start = 9600.4
	first, second := taught(t, opens), taught(t, closes)
	tests := []struct {
		name    string
		lag     float64 // samples
		a, b    float64 // times as loud as usual
		loudest float64 // from the start of the first, samples
	}{
		{"3.5 ms apart", 168.3, 1, 1, 168},
		{"4 ms apart", 192.7, 1, 1, 0},
		{"7 ms apart, the first the louder", 336.2, 1.3, 0.8, 0},
		{"10 ms apart, the second the louder", 480.5, 0.7, 1.4, 480},
		{"15 ms apart", 720.9, 1, 1, 24},
		{"18 ms apart", 864.4, 1, 1, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src := scene(thirtyUnder, []float64{start}, func(_ int, t float64) float64 {
				return tt.a*opens(t) + tt.b*closes(t-tt.lag)
			})
			o, ok, err := Overlay(src, 0, first, second, start+tt.loudest)
			if err != nil || !ok {
				t.Fatalf("ok = %v, error %v", ok, err)
			}
			const tenth = 4.8                               // samples: 0.1 ms
			for _, i := range []Interval{o.Start, o.Stop} { // one sound each
				if lag := i.Second - i.First; math.Abs(lag-tt.lag) > tenth || math.Abs(i.First-start) > tenth {
					t.Errorf("from %.1f, %.1f apart; want %.1f and %.1f", i.First, lag, start, tt.lag)
				}
				if i.U < i.Bias || i.Bias <= 0 || i.U > tenth {
					t.Errorf("uncertainty %.2f samples, of which %.2f in common", i.U, i.Bias)
				}
			}
		})
	}
}

// Strokes differ from shot to shot: start and end stop are each timed where they are.
func TestStartsAndStopsOfTwoMovementsInOneSoundAreTimedEach(t *testing.T) {
	const start, lag, lead, late = 9600.4, 480.5, 240, 7 // samples; late: a seventh of a ms
	opening := func(t, lead float64) float64 { return 0.1*thud(t, 1900, 4300) + opens(t-lead) }
	closing := func(t, lead float64) float64 { return 0.1*thud(t, 1700, 3900) + closes(t-lead) }
	first := taught(t, func(t float64) float64 { return opening(t, lead) })
	second := taught(t, func(t float64) float64 { return closing(t, lead) })
	src := scene(thirtyUnder/3, []float64{start}, func(_ int, t float64) float64 {
		return opening(t, lead+late) + closing(t-lag, lead-late)
	})
	o, ok, err := Overlay(src, 0, first, second, start+lead)
	if err != nil || !ok {
		t.Fatalf("ok = %v, error %v", ok, err)
	}
	const twentieth = 2.4 // samples: 0.05 ms
	for _, want := range []struct {
		name          string
		got           Interval
		first, second float64
	}{
		{"starts", o.Start, start, start + lag},
		{"stops", o.Stop, start + lead + late, start + lag + lead - late},
	} {
		if math.Abs(want.got.First-want.first) > twentieth || math.Abs(want.got.Second-want.second) > twentieth {
			t.Errorf("%s at %.1f and %.1f, want %.1f and %.1f", want.name, want.got.First, want.got.Second, want.first, want.second)
		}
	}
}

func TestOneMovementAloneIsNotTwo(t *testing.T) {
	const start = 9600.4
	first, second := taught(t, opens), taught(t, closes)
	tests := []struct {
		name  string
		sound func(float64) float64
	}{
		{"an opening", opens},
		{"a closing", closes},
		{"an opening much louder than usual", func(t float64) float64 { return 3 * opens(t) }},
		{"a closing before an opening", func(t float64) float64 { return closes(t) + opens(t-300) }},
		{"two openings", func(t float64) float64 { return opens(t) + opens(t-300) }},
		{"a closing a fifth as loud as usual", func(t float64) float64 { return opens(t) + closes(t-300)/5 }},
		{"nothing", func(float64) float64 { return 0 }},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			src := scene(thirtyUnder, []float64{start}, func(_ int, t float64) float64 { return tt.sound(t) })
			o, ok, err := Overlay(src, 0, first, second, start)
			if err != nil {
				t.Fatal(err)
			}
			if ok {
				t.Errorf("two, %.1f samples apart, want one", o.Start.Second-o.Start.First)
			}
		})
	}
}

func TestWhatCannotBeLaidOverIsSaid(t *testing.T) {
	known := taught(t, opens)
	silent := &dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}, Frames: make([]float64, 48000)}
	tests := []struct {
		name          string
		first, second Template
	}{
		{"nothing known of the first", Template{}, known},
		{"nothing known of the second", known, Template{}},
		{"both of one kind in silence", known, known},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if o, ok, err := Overlay(silent, 0, tt.first, tt.second, 9600); ok || err != nil {
				t.Errorf("%+v, %v, error %v; want nothing", o, ok, err)
			}
		})
	}
	lost := errors.New("the clip is gone")
	if _, _, err := Overlay(&distant{&dsp.Held{Layout: dsp.Format{Rate: 48000, Channels: 1}}, lost}, 0, known, known, 9600); !errors.Is(err, lost) {
		t.Errorf("error %v, want that of the source", err)
	}
}

// The next movement may follow sooner than the start of this one is compared for.
func TestATemplateHoldsNoMoreThanComesBeforeTheNext(t *testing.T) {
	at := instants(9)
	src := scene(thirtyUnder/3, at, func(_ int, t float64) float64 { return 0.1*thud(t, 1900, 4300) + opens(t-240) })
	m := locate(t, src, moved(at, func(int) float64 { return 240 }))
	if m.Lead == 0 {
		t.Fatal("one part only: the case tells nothing")
	}
	known := m.Template(50)
	if _, ok, err := Overlay(src, 0, known, known, at[0]); err != nil || ok && len(known.waveform) == 0 {
		t.Errorf("ok = %v, error %v", ok, err)
	}
	if known.part > len(known.waveform) || len(known.waveform) > 100 {
		t.Errorf("the start is %d samples of %d known", known.part, len(known.waveform))
	}
}
