package dsp

// fullScale is the fraction of full scale from which a sample counts as clipped.
const fullScale = 0.999

// meter measures a clip hop by hop: its level over time, where it is digitally
// silent, and its largest sample.
type meter struct {
	hop, channels int
	frames        int64
	hops          int64
	track         Track
	inFrame       int // hops taken into the frame under way
	frameHops     int
	sum, peak     float64
	silent        int64 // hops of digital silence up to now
	gapHops       int64
	gaps          []Gap
	largest       float64
	clipped       int64
}

func newMeter(f Format, hop int) meter {
	frame := max(1, int(trackTime*float64(f.Rate)/float64(hop)+0.5))
	return meter{hop: hop, channels: f.Channels, frameHops: frame, track: Track{Step: frame * hop},
		gapHops: max(1, int64(gapTime*float64(f.Rate)/float64(hop)))}
}

// take measures a hop: its frames as recorded and its mean square, conditioned.
func (m *meter) take(frames []float64, energy float64) {
	m.sum += energy
	m.peak = max(m.peak, energy)
	if m.inFrame++; m.inFrame == m.frameHops {
		m.endFrame()
	}
	silent := m.takeSamples(frames)
	if !silent {
		m.endGap()
		m.silent = 0
	} else {
		m.silent++
	}
	m.hops++
}

// takeSamples notes the largest sample and tells whether all are zero.
func (m *meter) takeSamples(frames []float64) (silent bool) {
	hi, lo := 0.0, 0.0
	for _, x := range frames {
		if x > hi {
			hi = x
		} else if x < lo {
			lo = x
		}
	}
	hi = max(hi, -lo)
	m.largest = max(m.largest, hi)
	if hi >= fullScale {
		for _, x := range frames {
			if x >= fullScale || x <= -fullScale {
				m.clipped++
			}
		}
	}
	return hi == 0
}

func (m *meter) endFrame() {
	m.track.add(m.sum/float64(m.inFrame), m.peak)
	m.sum, m.peak, m.inFrame = 0, 0, 0
}

func (m *meter) endGap() {
	if m.silent >= m.gapHops {
		m.gaps = append(m.gaps, Gap{Start: (m.hops - m.silent) * int64(m.hop), End: m.hops * int64(m.hop)})
	}
}

// hearing ends the clip.
func (m *meter) hearing() *Hearing {
	if m.inFrame > 0 {
		m.endFrame()
	}
	m.endGap()
	if n := len(m.gaps); n > 0 {
		m.gaps[n-1].End = min(m.gaps[n-1].End, m.frames)
	}
	return &Hearing{Frames: m.frames, Track: m.track, Gaps: m.gaps,
		Noise: m.track.quantile(0.1), Peak: m.largest, Clipped: m.clipped}
}
