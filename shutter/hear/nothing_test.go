package hear

import (
	"io"
	"math/rand/v2"
	"testing"

	"earshot/dsp"
)

// nothingSource is samples at 48 kHz on one channel.
type nothingSource struct{ left []float64 }

func (s *nothingSource) Format() dsp.Format { return dsp.Format{Rate: 48000, Channels: 1} }

func (s *nothingSource) ReadFrames(dst []float64) (int, error) {
	if len(s.left) == 0 {
		return 0, io.EOF
	}
	n := copy(dst, s.left)
	s.left = s.left[n:]
	return n, nil
}

func (s *nothingSource) ReadFramesAt(dst []float64, _ int64) (int, error) { return 0, io.EOF }

// nothingNoise is noise of 0.01 RMS, each sample smoothing of the one before.
func nothingNoise(seed uint64, n int, smoothing float64) []float64 {
	rng := rand.New(rand.NewPCG(seed, 5))
	x := make([]float64, n)
	last := 0.0
	for i := range x {
		last = smoothing*last + 0.01*rng.NormFloat64()
		x[i] = last
	}
	return x
}

func TestAClipWithoutAFiringSaysWhatItIs(t *testing.T) {
	const second = 48000
	knocked := nothingNoise(1, 10*second, 0)
	for i := range 500 {
		knocked[5*second+i] += 0.5 - 0.001*float64(i)
	}
	for _, c := range []struct {
		name    string
		samples []float64
		code    string
	}{
		{"digital silence", make([]float64, 10*second), "digital-silence"},
		{"digital silence, and short", make([]float64, 48), "digital-silence"},
		{"a millisecond", nothingNoise(1, 48, 0), "too-short"},
		{"white noise", nothingNoise(1, 10*second, 0), "nothing-stands-out"},
		{"noise mostly of low frequencies", nothingNoise(2, 30*second, 0.98), "nothing-stands-out"},
		{"more of it", nothingNoise(3, 30*second, 0.98), "nothing-stands-out"},
		{"a knock in noise", knocked, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, err := dsp.Listen(&nothingSource{c.samples})
			if err != nil {
				t.Fatal(err)
			}
			why := whyNothing(h)
			if why == nil {
				why = &Nothing{}
			}
			if why.Code != c.code || (why.Code == "") != (why.Message == "") {
				t.Errorf("%+v, want code %q", why, c.code)
			}
		})
	}
}
