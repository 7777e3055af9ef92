package dsp

import "fmt"

// Excerpt reads n samples of one channel from sample from on, conditioned as
// they were for detection. Samples before the start or after the end of the clip
// are 0.
func Excerpt(src Source, channel int, from int64, n int) ([]float64, error) {
	f := src.Format()
	settle := f.Rate / 50 // by then the filter has forgotten that it was just switched on
	first := from - int64(settle)
	x := make([]float64, (settle+n)*f.Channels)
	skip := int(min(max(0, -first), int64(settle+n)))
	raw := x[skip*f.Channels:]
	got := 0
	if len(raw) > 0 {
		var err error
		if got, err = src.ReadFramesAt(raw, first+int64(skip)); err != nil {
			return nil, fmt.Errorf("excerpt at sample %d: %w", from, err)
		}
	}
	if got > 0 { // an offset in the samples begins and ends with the clip, and is no sound
		h := newHighpass(f.Rate)
		h.prime(raw[channel])
		h.filter(x[skip:skip+got], raw, channel, f.Channels) // no sample is written before it is read
	}
	clear(x[skip+got:])
	return x[settle : settle+n], nil
}
