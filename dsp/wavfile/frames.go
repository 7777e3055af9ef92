package wavfile

import (
	"fmt"
	"io"
)

// ReadFrames implements dsp.Source. It panics unless the length of dst is a
// multiple of the channels.
func (r *Reader) ReadFrames(dst []float64) (int, error) {
	channels := r.channelsFor(dst)
	done := 0
	for done < len(dst) && r.err == nil {
		if len(r.ahead.rest) == 0 {
			r.err = r.fetchAhead()
			continue
		}
		n, bad := r.layout.coding.take(dst[done:], &r.ahead)
		done += n
		r.bad += int64(bad)
	}
	if done == 0 && len(dst) > 0 {
		return 0, r.err
	}
	return done / channels, nil
}

// ReadFramesAt implements dsp.Source. A clip that ends inside dst gives fewer
// frames and no error; so does a frame at or beyond its end, with 0.
func (r *Reader) ReadFramesAt(dst []float64, frame int64) (int, error) {
	channels := r.channelsFor(dst)
	if frame < 0 {
		return 0, fmt.Errorf("%s: frame %d lies before the start of the clip", r.file.name, frame)
	}
	want := min(int64(len(dst)/channels), max(0, r.layout.frames-frame))
	dst = dst[:want*int64(channels)]
	for done := 0; done < len(dst); {
		if err := r.fetch(&r.aside, frame+int64(done/channels), int64((len(dst)-done)/channels)); err != nil {
			return done / channels, err
		}
		n, _ := r.layout.coding.take(dst[done:], &r.aside)
		done += n
	}
	return int(want), nil
}

func (r *Reader) channelsFor(dst []float64) int {
	channels := r.layout.coding.Channels
	if len(dst)%channels != 0 {
		panic(fmt.Sprintf("wavfile: %d samples for frames of %d channels", len(dst), channels))
	}
	return channels
}

// take converts as many samples of b as dst has room for.
func (c coding) take(dst []float64, b *block) (n, bad int) {
	n = min(len(dst), len(b.rest)/c.width)
	bad = c.convert(dst[:n], b.rest[:n*c.width])
	b.rest = b.rest[n*c.width:]
	return n, bad
}

// fetch fills b with up to limit frames from frame on; these are in the clip.
func (r *Reader) fetch(b *block, frame, limit int64) error {
	frameBytes := int64(r.layout.coding.frameBytes())
	n := min(limit, r.layout.frames-frame, blockBytes/frameBytes) * frameBytes
	if int64(len(b.buf)) < n {
		b.buf = make([]byte, n)
	}
	b.rest = nil
	if err := r.file.readFull(b.buf[:n], r.layout.start+frame*frameBytes); err != nil {
		return err
	}
	b.rest = b.buf[:n]
	return nil
}

// fetchAhead fetches the next block of sequential reading and copies its bytes,
// with those before the first and after the last. It returns io.EOF at the end.
func (r *Reader) fetchAhead() error {
	if r.copyTo != nil && !r.copied {
		r.copied = true
		if err := r.copyRange(0, r.layout.start); err != nil {
			return err
		}
	}
	if r.pos == r.layout.frames {
		return r.finish()
	}
	if err := r.fetch(&r.ahead, r.pos, r.layout.frames); err != nil {
		return err
	}
	r.pos += int64(len(r.ahead.rest) / r.layout.coding.frameBytes())
	if r.copyTo == nil {
		return nil
	}
	_, err := r.copyTo.Write(r.ahead.rest)
	return err
}

// finish copies what follows the last frame and ends the sequential reading.
func (r *Reader) finish() error {
	end := r.layout.start + r.layout.frames*int64(r.layout.coding.frameBytes())
	if err := r.copyRange(end, r.file.size); err != nil {
		return err
	}
	return io.EOF
}

// copyRange copies the bytes from start to end of the file.
func (r *Reader) copyRange(start, end int64) error {
	if r.copyTo == nil || start == end {
		return nil
	}
	buf := make([]byte, min(end-start, blockBytes))
	for start < end {
		piece := buf[:min(end-start, blockBytes)]
		if err := r.file.readFull(piece, start); err != nil {
			return err
		}
		if _, err := r.copyTo.Write(piece); err != nil {
			return err
		}
		start += int64(len(piece))
	}
	return nil
}
