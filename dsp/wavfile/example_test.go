package wavfile_test

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"earshot/dsp/wavfile"
)

// A file that a recorder left when its battery died: the header says more than there is.
func ExampleNewReader() {
	file := []byte("RIFF\x00\x00\x00\x00WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x80\xbb\x00\x00\x00\x77\x01\x00\x02\x00\x10\x00data\xff\xff\xff\x7f")
	file = binary.LittleEndian.AppendUint16(file, 1<<14)
	r, err := wavfile.NewReader(bytes.NewReader(file), int64(len(file)), "corvane-105.wav")
	if err != nil {
		fmt.Println(err)
		return
	}
	sample := make([]float64, 1)
	r.ReadFrames(sample)
	fmt.Printf("%s, %d Hz, %d frame: %.2f\n", r.Encoding(), r.Format().Rate, r.Frames(), sample)
	for _, w := range r.Warnings() {
		fmt.Println(w.Message)
	}
	// Output:
	// WAV, 16-bit PCM, 48000 Hz, 1 frame: [0.50]
	// the header gives no length, as in a recording that was streamed or not closed; read to the end of the file
}
