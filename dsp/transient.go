package dsp

// NumBands is the number of spectral bands a transient is described by.
const NumBands = 12

// Transient is one sudden sound. Onset is in samples from the clip's start,
// fractional; levels are in dBFS (a full-scale sine has an RMS of −3.01 dBFS).
type Transient struct {
	Onset float64 // first sample of the new sound
	U     float64 // standard uncertainty of Onset, samples
	Level float64 // loudest short-time RMS after the onset
	Rise  float64 // dB of Level over the sound just before
	Decay float64 // dB that the level falls by from its peak to 15–30 ms later
	Bands [NumBands]float32
}

// Gap is a stretch in which samples were lost or muted, in samples.
type Gap struct{ Start, End int64 }

// Hearing is what was heard in one clip.
type Hearing struct {
	Format
	Frames     int64 // length of the clip
	Channel    int   // the channel listened to
	Transients []Transient
	Gaps       []Gap
}
