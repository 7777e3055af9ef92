package dsp

import "fmt"

// Excerpt reads n samples of one channel from sample from on, conditioned as
// they were for detection. Samples before the start or after the end of the clip
// are 0.
func Excerpt(src Source, channel int, from int64, n int) ([]float64, error) {
	f := src.Format()
	settle := f.Rate / 50 // by then the filter has forgotten that it was just switched on
	first := from - int64(settle)
	x := make([]float64, settle+n)
	skip := min(max(0, -first), int64(len(x)))
	raw := make([]float64, (int64(len(x))-skip)*int64(f.Channels))
	got := 0
	if len(raw) > 0 {
		var err error
		if got, err = src.ReadFramesAt(raw, first+skip); err != nil {
			return nil, fmt.Errorf("excerpt at sample %d: %w", from, err)
		}
	}
	if got > 0 { // an offset in the samples begins and ends with the clip, and is no sound
		h := newHighpass(f.Rate)
		h.prime(raw[channel])
		h.filter(x[skip:int(skip)+got], raw, channel, f.Channels)
	}
	return x[settle:], nil
}
