package dsp

import "fmt"

// Excerpt reads n samples of one channel from sample from on, conditioned as
// they were for detection. Samples before the start or after the end of the clip
// are 0.
func Excerpt(src Source, channel int, from int64, n int) ([]float64, error) {
	f := src.Format()
	settle := f.Rate / 50 // by then the filter has forgotten that it was just switched on
	raw := make([]float64, (settle+n)*f.Channels)
	first := from - int64(settle)
	skip := max(0, -first)
	if skip < int64(settle+n) {
		if _, err := src.ReadFramesAt(raw[skip*int64(f.Channels):], first+skip); err != nil {
			return nil, fmt.Errorf("excerpt at sample %d: %w", from, err)
		}
	}
	h := newHighpass(f.Rate)
	h.prime(raw[channel])
	x := make([]float64, settle+n)
	h.filter(x, raw, channel, f.Channels)
	return x[settle:], nil
}
