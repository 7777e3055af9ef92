package dsp

// NumBands is the number of spectral bands a transient is described by.
const NumBands = 12

// Transient is one sudden sound. Onset is in samples from the clip's start,
// fractional; levels are in dBFS of the conditioned signal (above 500 Hz).
type Transient struct {
	Onset float64 // the first sample of the new sound
	U     float64 // standard uncertainty of Onset, samples
	Level float64 // loudest hop of half a millisecond within 8 ms of the onset
	Rise  float64 // Level over the mean level of the 4 ms before, dB
	Decay float64 // how far the level has fallen 15 to 30 ms after the onset, dB

	// Only a transient that stands out from what an earlier one leaves (see
	// Fading) has a Spectrum; of another it is nil, and Onset is only where the
	// trigger was.
	Spectrum *Spectrum
}

// Spectrum is what a sound is made of and what was there before it: levels in
// dBFS in bands a third of an octave to half an octave wide (see bandEdges). A
// band beyond the clip's own bandwidth holds the level of digital silence in both.
type Spectrum struct {
	Bands [NumBands]float32 // of the 10 ms from the onset on
	Noise [NumBands]float32 // of the 10 ms before
}

// Gap is a stretch of digital silence on every channel, in samples: buffers lost
// by the recorder, or a noise gate. End is the first sample after it.
type Gap struct{ Start, End int64 }

// Hearing is what was heard in one clip.
type Hearing struct {
	Format
	Frames     int64       // length of the clip, samples
	Channel    int         // the channel listened to, from 0
	Transients []Transient // by onset, on that channel
	Track      Track       // the level of the sound throughout, all channels summed
	Levels     Levels      // the same in each ear, finer
	Gaps       []Gap       // in time order
	Noise      float64     // the level that the clip is quieter than for a tenth of the time, dBFS
	Peak       float64     // the largest sample of any channel, as a fraction of full scale
	Clipped    int64       // samples at or beyond 0.999 of full scale, all channels
}

// Seconds turns samples into seconds.
func (f Format) Seconds(samples float64) float64 { return samples / float64(f.Rate) }

// Samples turns seconds into samples.
func (f Format) Samples(seconds float64) float64 { return seconds * float64(f.Rate) }

// Duration is the clip's length in s.
func (h *Hearing) Duration() float64 { return h.Seconds(float64(h.Frames)) }
