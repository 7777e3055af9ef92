package main

import (
	"bytes"
	"io"
)

// What the check of an Ogg file's end takes from its format (RFC 3533, section 6).
const (
	oggMark    = "OggS"             // a page begins with it
	oggFlags   = 5                  // where in a page its flags lie
	oggLast    = 4                  // the flag of the last page
	oggLongest = 27 + 255 + 255*255 // bytes of a page
)

// endMissing tells whether an Ogg file lacks the page that is marked as its last. An Ogg file
// states no length, so nothing else shows that it was cut short.
func endMissing(f oneFile) (bool, error) {
	tail := make([]byte, min(f.size, 2*oggLongest))
	if _, err := io.ReadFull(io.NewSectionReader(f.r, f.size-int64(len(tail)), int64(len(tail))), tail); err != nil {
		return false, err
	}
	at := bytes.LastIndex(tail, []byte(oggMark))
	return at < 0 || at+oggFlags >= len(tail) || tail[at+oggFlags]&oggLast == 0, nil
}
