package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os/exec"
)

// ffmpegName codes and decodes what is not WAV; Debian's package of the same name.
const ffmpegName = "ffmpeg"

// hasFFmpeg tells whether this machine has it.
func hasFFmpeg() bool {
	_, err := exec.LookPath(ffmpegName)
	return err == nil
}

// ffmpeg runs it and returns what it writes to its standard output.
func ffmpeg(args ...string) ([]byte, error) {
	var stderr bytes.Buffer
	cmd := exec.Command(ffmpegName, append([]string{"-nostdin", "-v", "error"}, args...)...)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("%s: %w: %s", ffmpegName, err, bytes.TrimSpace(stderr.Bytes()))
	}
	return out, nil
}

// decode returns the left channel of a sound file at recordedRate.
func decode(path string) ([]float64, error) { return decodeBy(path, "-af", "pan=mono|c0=c0") }

// decodeMixed returns all channels of a sound file as one, at recordedRate.
func decodeMixed(path string) ([]float64, error) { return decodeBy(path, "-ac", "1") }

// decodeBy makes one channel of a sound file, as options say, at recordedRate.
func decodeBy(path string, options ...string) ([]float64, error) {
	args := append([]string{"-i", path}, options...)
	out, err := ffmpeg(append(args, "-ar", fmt.Sprint(recordedRate), "-f", "f32le", "-")...)
	if err != nil {
		return nil, err
	}
	x := make([]float64, len(out)/4)
	for i := range x {
		x[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(out[4*i:])))
	}
	return x, nil
}

// recordedRate is the sampling rate at which recorded sounds are used, Hz.
const recordedRate = 48000
