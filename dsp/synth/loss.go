package synth

import "math"

// lost is a loss in frames of the sound before anything was lost.
type lost struct {
	from, to int64
	dropped  bool
}

// frames turns losses into frames.
func frames(losses []Loss, rate float64) []lost {
	out := make([]lost, len(losses))
	for i, l := range losses {
		out[i] = lost{int64(math.Round(l.At * rate)), int64(math.Round((l.At + l.Length) * rate)), l.Dropped}
	}
	return out
}

// dropped is how many frames were left out before a frame of the sound.
func dropped(losses []lost, frame int64) int64 {
	n := int64(0)
	for _, l := range losses {
		if l.dropped && l.from < frame {
			n += min(l.to, frame) - l.from
		}
	}
	return n
}

// timebase leads from the time of the sound to that of the clip: the recorder took
// rate frames a true second, the clip says nominal, and some frames were lost.
type timebase struct {
	losses        []lost
	rate, nominal float64
}

// frame is the frame that a time of the sound, s, falls into.
func (b timebase) frame(t float64) int64 { return int64(math.Floor(t * b.rate)) }

// clip is a time of the sound as a time of the clip, both in s.
func (b timebase) clip(t float64) float64 {
	return (t*b.rate - float64(dropped(b.losses, b.frame(t)))) / b.nominal
}

func (b timebase) stroke(s Stroke) Stroke { return Stroke{b.clip(s.Start), b.clip(s.Stop)} }

// settle moves the truth from the time of the sound to that of the clip.
func (t *Truth) settle(b timebase) {
	for i := range t.Firings {
		t.Firings[i].settle(b)
	}
	for i := range t.Sounds {
		t.Sounds[i].Start, t.Sounds[i].End = b.clip(t.Sounds[i].Start), b.clip(t.Sounds[i].End)
	}
	for _, l := range b.losses {
		at := float64(l.from-dropped(b.losses, l.from)) / b.nominal
		t.Losses = append(t.Losses, Loss{at, float64(l.to-l.from) / b.nominal, l.dropped})
	}
}

func (f *Firing) settle(b timebase) {
	if f.Closes {
		from, to := b.frame(f.Open.Start), b.frame(f.Close.Start)
		f.Lost = float64(dropped(b.losses, to)-dropped(b.losses, from)) / b.nominal
		f.Muted = muted(b.losses, from, b.frame(f.Close.Stop))
		f.Close = b.stroke(f.Close)
	}
	f.Open = b.stroke(f.Open)
}

// muted says whether frames were replaced by zeros from one frame to another.
func muted(losses []lost, from, to int64) bool {
	for _, l := range losses {
		if !l.dropped && l.from < to && l.to > from {
			return true
		}
	}
	return false
}
