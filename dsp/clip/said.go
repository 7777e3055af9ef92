package clip

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
)

// said takes up what the decoder says: notes are passed on at once, the last line is
// its report. Of a program gone wrong no more than the start is kept.
type said struct {
	notes io.Writer
	kept  bytes.Buffer // lines that are no notes
	line  []byte       // the line not ended yet
}

const maxSaid = 64 << 10 // bytes

var notePrefix = []byte("note: ")

func (s *said) Write(p []byte) (int, error) {
	for _, part := range bytes.SplitAfter(p, []byte("\n")) {
		if len(s.line)+len(part) < maxSaid {
			s.line = append(s.line, part...)
		}
		if !bytes.HasSuffix(part, []byte("\n")) {
			continue
		}
		if note, ok := bytes.CutPrefix(s.line, notePrefix); ok {
			fmt.Fprintf(s.notes, "earshot: %s", note)
		} else if s.kept.Len()+len(s.line) < 2*maxSaid {
			s.kept.Write(s.line)
		}
		s.line = s.line[:0]
	}
	return len(p), nil
}

func (s *said) report() (Report, bool) {
	lines := bytes.Split(bytes.TrimSpace(s.kept.Bytes()), []byte("\n"))
	var r Report
	err := json.Unmarshal(lines[len(lines)-1], &r)
	return r, err == nil && (r.Refusal != nil || r.Encoding != "")
}

// first is the first line of what was said, to follow other words.
func (s *said) first() string {
	line, _, _ := bytes.Cut(bytes.TrimSpace(s.kept.Bytes()), []byte("\n"))
	if len(line) == 0 {
		return ""
	}
	return ": " + string(line)
}
