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

// aubioSettings are the best compromise found on the twelve rows of noise and a handful
// of others, among its methods, frames of 256 to 1024 samples, hops of 64 and 128, and
// onset thresholds of 0.3 to 1.2: a higher threshold of silence than its own, a finer
// hop, and else what it does by itself but for the method, which of all let the fewest
// other sounds through. A shortest interval above its own 12 ms would hear fewer
// bounces, and no 1/60; a hop of 64 times up to 1 ms better in some rows, takes longer
// and finds less. Hop and frame are 2.7 and 10.7 ms at 48 kHz, and as near to that at
// other rates as powers of 2 come.
func aubioSettings(rate int) []string {
	hop := int(math.Exp2(math.Round(math.Log2(128 * float64(rate) / 48000))))
	return strings.Fields(fmt.Sprintf("-r 0 -O complex -B %d -H %d -t 0.3 -M 0.012 -s -70", 4*hop, hop))
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
