package main

import (
	"math"
	"math/rand/v2"

	"earshot/dsp"
	"earshot/dsp/synth"
)

// beside is recorded sounds beside the shutter.
type beside struct {
	kind  *recordedKind
	level float64 // dB of each one's loudest 2 ms against the click
}

// clearance is how long, s, at least passes from the last recorded sound to the next
// opening, and from a closing to the first. A sound cut short is faded for fade s.
const (
	clearance = 0.3
	fade      = 0.02
)

// besideRecorded are firings with recorded sounds between them, and the sounds alone.
// The pauses are long enough to say something.
func besideRecorded(k *recordedKind) []condition {
	return []condition{
		{k.name + " between, recorded", beyond, 3, func(r *scene, _ int) {
			r.beside, r.Noise.ClickOver, r.Phone.Rate = &beside{k, k.level}, 30, recordedRate
			r.Take.Pause = [2]float64{0.8, 2}
		}},
		{k.name + " alone, recorded", quiet, stillClips, func(r *scene, _ int) {
			r.beside, r.Phone.Rate = &beside{k, 0}, recordedRate
		}},
	}
}

// mixInto returns what is heard of a clip of one channel at recordedRate with the
// sounds in it, and the truth with their names.
func (b *beside) mixInto(clip *synth.Clip, seed uint64) (dsp.Source, synth.Truth, error) {
	truth := clip.Truth
	sounds, err := b.kind.load()
	if err != nil {
		return nil, truth, err
	}
	rnd := rand.New(rand.NewPCG(seed, 3))
	x := clip.Samples()[0]
	for _, span := range free(truth.Firings, clip.Duration(), rnd) {
		b.kind.play(rnd, sounds, span[0], span[1], func(s recordedSound, at float64) float64 {
			speed := 0.9 + 0.2*rnd.Float64()
			y := played(excerpt(rnd, s.samples, speed*(span[1]-at)), speed)
			mix(x, y, int(at*recordedRate), decibelGain(truth.Click+b.level+6*rnd.Float64()-3))
			end := at + float64(len(y))/recordedRate
			truth.Sounds = append(truth.Sounds, synth.Sound{Kind: b.kind.name + " " + s.name, Start: at, End: end})
			return end
		})
	}
	for i, v := range x {
		x[i] = min(1, max(-1, v))
	}
	return synth.Loop(clip.Format(), x, int64(len(x))), truth, nil
}

// free are the times between firings, all of which close, or the whole clip: from and
// to, s.
func free(firings []synth.Firing, length float64, rnd *rand.Rand) [][2]float64 {
	if len(firings) == 0 {
		return [][2]float64{{0, length}}
	}
	var spans [][2]float64
	for i := range firings[:len(firings)-1] {
		from, to := firings[i].Close.Stop+clearance, firings[i+1].Open.Start-clearance*(1+rnd.Float64()/2)
		if to > from {
			spans = append(spans, [2]float64{from, to})
		}
	}
	return spans
}

// played is a sound played so many times as fast. A door or a key sounds a little different each
// time, but a recording played twice would be the same to the sample.
func played(x []float64, speed float64) []float64 {
	y := make([]float64, max(0, int(float64(len(x)-1)/speed)))
	for i := range y {
		at := float64(i) * speed
		j := int(at)
		y[i] = x[j] + (at-float64(j))*(x[j+1]-x[j])
	}
	return y
}

// excerpt is a sound, cut to a time in s. If it is longer than 2 s, the excerpt begins at a random
// instant in it. It is faded where it is cut.
func excerpt(rnd *rand.Rand, x []float64, most float64) []float64 {
	const long, n = 2 * recordedRate, int(fade * recordedRate)
	from := 0
	if len(x) > long {
		from = rnd.IntN(len(x) - long/2)
	}
	to := min(len(x), from+int(most*recordedRate))
	y := append([]float64(nil), x[from:to]...)
	for i := range min(n, len(y)) {
		gain := float64(i) / float64(n)
		if from > 0 {
			y[i] *= gain
		}
		if to < len(x) {
			y[len(y)-1-i] *= gain
		}
	}
	return y
}

// mix adds y to x from a sample on, as far as x goes.
func mix(x, y []float64, at int, gain float64) {
	for i := range min(len(y), len(x)-at) {
		x[at+i] += gain * y[i]
	}
}

// loudest is the mean power of the loudest 2 ms of a sound at recordedRate.
func loudest(x []float64) float64 {
	const n = recordedRate / 500
	sum, most := 0.0, 0.0
	for i, v := range x {
		sum += v * v
		if i >= n {
			sum -= x[i-n] * x[i-n]
		}
		most = max(most, sum)
	}
	return most / n
}

func meanPower(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return sum / float64(len(x))
}

func decibelGain(db float64) float64 { return math.Pow(10, db/20) }
