package main

import (
	"bytes"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"

	"earshot/dsp/wavfile"
)

// aubioName is the general onset detector of the library aubio (P. Brossier), in
// Debian's package aubio-tools.
const aubioName = "aubioonset"

type aubio struct{ path string }

// findAubio tells whether this machine has it.
func findAubio() (a aubio, ok bool) {
	path, err := exec.LookPath(aubioName)
	return aubio{path}, err == nil
}

// aubioSettings are the best compromise found on a handful of rows ("no winding", "room
// noise, 30 dB", "soft openings" and the like) among its methods, frames of 256 to 1024
// samples, hops of 64 and 128, and onset thresholds of 0.3 to 1.2: its own method and
// shortest interval (a longer one hears fewer bounces, and no 1/60), higher thresholds
// of onset and of silence, and the smallest hop that runs in reasonable time. Hop and
// frame are 1.3 and 10.7 ms at 48 kHz, and as near to that at other rates as powers of
// 2 come.
func aubioSettings(rate int) []string {
	hop := int(math.Exp2(math.Round(math.Log2(64 * float64(rate) / 48000))))
	return strings.Fields(fmt.Sprintf("-r 0 -O hfc -B %d -H %d -t 0.5 -M 0.012 -s -70", 8*hop, hop))
}

func (a aubio) onsets(clip *wavfile.Reader, path string) ([]float64, error) {
	var stderr bytes.Buffer
	cmd := exec.Command(a.path, append(aubioSettings(clip.Format().Rate), "-i", path)...)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%w: %s", err, bytes.TrimSpace(stderr.Bytes()))
	}
	var onsets []float64
	for _, line := range strings.Fields(string(out)) {
		t, err := strconv.ParseFloat(line, 64)
		if err != nil {
			return nil, fmt.Errorf("its output is not one time a line: %w", err)
		}
		if t > 0 { // 0 is given wherever a clip does not begin with silence
			onsets = append(onsets, t)
		}
	}
	return onsets, nil
}
