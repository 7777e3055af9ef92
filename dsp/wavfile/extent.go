package wavfile

import "fmt"

// takeData notes where the samples lie. The first chunk of samples that holds
// any is read; a further one is warned of.
func (s *scan) takeData(c chunk) (int64, error) {
	held := s.size - c.body()
	if c.size == noSize && s.form != "RIFF" {
		c.size = s.longSize // ds64 replaces the 32-bit size where that is all ones
	}
	size, streamed := max(0, min(c.size, held)), s.isStreamed(c, held)
	if streamed {
		size = held
	}
	switch {
	case !s.hasData:
		s.hasData = size > 0
		s.data, s.dataEnd, s.streamed = c, c.body()+size, streamed
	case size > 0:
		s.warn(SecondData, fmt.Sprintf("a second chunk of samples at byte %d is not read", c.offset))
	}
	return s.next(c, size), nil
}

// noSize is what a writer that cannot go back leaves for a length.
const noSize = 1<<32 - 1

// isStreamed tells a length that nobody knew from one that a cut file no longer
// has. Writers to a pipe leave 0, FFFFFFFF, 7FFFF000 or something just below
// FFFFFFFF or 80000000 (seen from common converters and recorders).
func (s *scan) isStreamed(c chunk, held int64) bool {
	switch {
	case held == 0 || c.size == held:
		return false
	case c.size < 0: // no ds64, or one that says "unknown"
		return true
	case c.size == 0:
		return held >= headerBytes && s.likeness(c.body()) < 2
	case c.size == 0x7FFFF000:
		return s.likeness(c.body()+c.size) < 2
	case c.size == noSize && s.form == "RIFF":
		return true
	}
	const near = 4096
	nearMax := c.size > noSize-near && c.size <= noSize
	nearHalf := c.size >= 1<<31-near && c.size <= 1<<31
	return c.size > held && (nearMax || nearHalf)
}

// settle turns what was found into whole frames and states the doubts.
func (s *scan) settle() error {
	if !s.hasFmt {
		return s.missing("fmt ")
	}
	if s.data.id == "" {
		return s.missing("data")
	}
	bytes := int64(s.coding.frameBytes())
	s.start = s.data.body()
	s.frames = (s.dataEnd - s.start) / bytes
	if s.frames == 0 {
		return &Error{
			Kind: ErrEmpty, File: s.name, Chunk: "data", Offset: s.data.offset,
			Found: fmt.Sprintf("%d bytes", s.dataEnd-s.start), Allowed: fmt.Sprintf("%d or more, one frame", bytes), Hint: hintRecord,
		}
	}
	s.warnLength(bytes)
	s.warnTail(bytes)
	return nil
}

func (s *scan) missing(id string) error {
	return &Error{
		Kind: ErrDamaged, File: s.name, Offset: s.walked,
		Found: fmt.Sprintf("no %q chunk up to here", id), Allowed: `one "fmt " and one "data" chunk`, Hint: hintCopy,
	}
}

// warnLength states that the length is not what the header says, in seconds as a
// person would check it.
func (s *scan) warnLength(frameBytes int64) {
	if s.streamed {
		s.warn(StreamedSize, "the header gives no length, as in a recording that was streamed or not closed; read to the end of the file")
		return
	}
	if s.data.size <= s.size-s.start {
		return
	}
	rate := float64(s.coding.Rate)
	s.warn(Truncated, fmt.Sprintf(
		"the file is cut short: it holds %.3f s of the %.3f s its header states; read to the cut",
		float64(s.frames)/rate, float64(s.data.size/frameBytes)/rate))
}

// tailSeconds is the length from which bytes outside any chunk could hide a
// firing; shorter ones are the padding some recorders leave (common practice, no
// source).
const tailSeconds = 0.1

func (s *scan) warnTail(frameBytes int64) {
	seconds := float64(s.tail/frameBytes) / float64(s.coding.Rate)
	if seconds < tailSeconds {
		return
	}
	s.warn(UnreadTail, fmt.Sprintf(
		"%d bytes after the samples belong to no chunk and are not read; as sound they would last %.1f s", s.tail, seconds))
}

func (s *scan) warn(code WarningCode, message string) {
	s.warnings = append(s.warnings, Warning{code, message})
}
