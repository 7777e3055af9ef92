package collage

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// testRate is what ffmpeg decodes all recordings to.
const testRate = 48000

// library opens the packages' recordings, decoded by ffmpeg in one go.
func library(t testing.TB) *Library {
	t.Helper()
	folder, files := t.TempDir(), Files()
	var in, out []string
	index := map[string]string{}
	for i, file := range files {
		if _, err := os.Stat(file); err != nil {
			t.Skipf("%v; install %v", err, Packages())
		}
		index[file] = filepath.Join(folder, fmt.Sprint(i))
		in = append(in, "-i", file)
		out = append(out, "-map", fmt.Sprintf("%d:a", i), "-f", "f32le", "-ac", "1", "-ar", fmt.Sprint(testRate), index[file])
	}
	args := append(append([]string{"-v", "error"}, in...), out...)
	if message, err := exec.Command("ffmpeg", args...).CombinedOutput(); err != nil {
		t.Skipf("ffmpeg: %v: %s", err, message)
	}
	l, err := Open(func(path string) ([]float64, int, error) { return readFloats(index[path]) })
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func readFloats(path string) ([]float64, int, error) {
	b, err := os.ReadFile(path)
	x := make([]float64, len(b)/4)
	for i := range x {
		x[i] = float64(math.Float32frombits(binary.LittleEndian.Uint32(b[4*i:])))
	}
	return x, testRate, err
}
