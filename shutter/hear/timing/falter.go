package timing

import (
	"slices"

	"earshot/dsp/describe"
	"earshot/shutter"
)

// The bounds of what is taken for a falter.
const (
	falterLevel  = 0.3  // of the power of the buzz around: less is standing still
	runningLevel = 0.5  // and more is running
	falterBeats  = 2.5  // beats that the power is averaged over,
	falterTime   = 0.01 // but over no less than so many s
	falterLeast  = 0.04 // s that it stands still, or more where that is
	falterMissed = 3    // so many beats
	falterAround = 0.3  // of the run, on either side, that is the buzz around
	falterOver   = 0.5  // times the noise that the buzz must be for its lack to be heard
)

// run is the power of a buzz over the noise, smoothed: value i is that about step·i
// after the first, in values of the foreground.
type run struct {
	x           []float64
	first, step float64 // values of the foreground
	width       float64 // values that each is averaged over
	beat        float64 // values from beat to beat
}

// newRun smooths the foreground from value first to before value end, in which the
// escapement beats so often a second; 0 where that is not known.
func newRun(f *describe.Foreground, first, end int, rate float64) run {
	const unknown = 60 // beats a second, the slowest
	if rate == 0 {
		rate = unknown
	}
	beat := f.Values(1 / rate)
	width := max(1, int(max(falterBeats*beat, f.Values(falterTime))))
	step := max(1, width/4)
	r := run{first: float64(first) + float64(width)/2, step: float64(step), width: float64(width), beat: beat}
	sum := 0.0
	for i := first; i < end; i++ {
		sum += f.Over[i] - 1
		if back := i - width; back >= first {
			sum -= f.Over[back] - 1
		}
		if done := i - first + 1 - width; done >= 0 && done%step == 0 {
			r.x = append(r.x, sum/float64(width))
		}
	}
	return r
}

// falters lists where the buzz falters, in values of the foreground.
func (r run) falters(least float64) (all []shutter.Falter) {
	around := r.around()
	from := -1 // where it began to stand still
	ran := false
	for i, x := range r.x {
		switch {
		case around[i] < falterOver:
			from, ran = -1, false
		case x < falterLevel*around[i]:
			if from < 0 {
				from = i
			}
		case x >= runningLevel*around[i]:
			if from >= 0 && ran {
				if f := r.stretch(from, i); f.Length >= least {
					all = append(all, f)
				}
			}
			from, ran = -1, true
		}
	}
	return all
}

// stretch is what stood still where the values from one to before another are low. A
// value is low once most of what it is averaged over is: by a fifth of that the beats
// ended earlier, and began again later; and from beat to beat it always is still.
func (r run) stretch(from, to int) shutter.Falter {
	const late = 0.2
	start := r.first + float64(from)*r.step - late*r.width
	return shutter.Falter{Start: start, Length: float64(to-from)*r.step + 2*late*r.width - r.beat}
}

// around is the power of the buzz about each value: what 30 % of those around are
// above, so that some of them may lack.
func (r run) around() []float64 {
	const part, anchors = 0.7, 10
	reach := max(1, int(falterAround*float64(len(r.x))))
	every := max(1, len(r.x)/anchors)
	out := make([]float64, len(r.x))
	for i := range out {
		if i%every != 0 {
			out[i] = out[i-1]
			continue
		}
		middle := min(i+every/2, len(r.x)-1)
		near := slices.Sorted(slices.Values(r.x[max(0, middle-reach):min(len(r.x), middle+reach+1)]))
		out[i] = near[int(part*float64(len(near)-1))]
	}
	return out
}
