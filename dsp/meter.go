package dsp

import "math"

// fullScale is the fraction of full scale from which a sample counts as clipped.
const fullScale = 0.999

// meter measures a clip hop by hop: its level over time, where it is digitally
// silent, and its largest sample.
type meter struct {
	hop, channels int
	frames        int64
	track         Track
	inFrame       int // hops taken into the frame under way
	frameHops     int
	sum, peak     float64
	gaps          gapFinder
	largest       uint64 // bits of the largest magnitude
	clipped       int64
}

func newMeter(f Format, hop int) meter {
	frame := max(1, int(trackTime*float64(f.Rate)/float64(hop)+0.5))
	return meter{hop: hop, channels: f.Channels, frameHops: frame, track: Track{Step: frame * hop}, gaps: newGapFinder(f, hop)}
}

// take measures a hop: its frames as recorded and its mean square, conditioned.
func (m *meter) take(frames []float64, energy float64) {
	m.sum += energy
	m.peak = max(m.peak, energy)
	if m.inFrame++; m.inFrame == m.frameHops {
		m.endFrame()
	}
	m.takeSamples(frames)
	m.gaps.take(frames)
}

// takeSamples notes the largest sample and those at full scale. Magnitudes
// are compared by their bits, whose order is the same, and with the largest of the
// whole clip, which seldom changes: both keep the processor from guessing wrong.
func (m *meter) takeSamples(frames []float64) {
	const sign = 1 << 63
	largest, full := m.largest, math.Float64bits(fullScale)
	for _, x := range frames {
		b := math.Float64bits(x) &^ sign
		if b > largest {
			largest = b
		}
		if b >= full {
			m.clipped++
		}
	}
	m.largest = largest
}

func (m *meter) endFrame() {
	m.track.add(m.sum/float64(m.inFrame), m.peak)
	m.sum, m.peak, m.inFrame = 0, 0, 0
}

// hearing ends the clip.
func (m *meter) hearing() *Hearing {
	if m.inFrame > 0 {
		m.endFrame()
	}
	return &Hearing{Frames: m.frames, Track: m.track, Gaps: m.gaps.finish(m.frames),
		Noise: quantile(m.track.mean, 0.1), Peak: math.Float64frombits(m.largest), Clipped: m.clipped}
}
