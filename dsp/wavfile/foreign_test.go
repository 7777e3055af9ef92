package wavfile

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"earshot/dsp/outside"
)

// readElsewhere prints, for each file named, channels, rate and samples as
// libsndfile reads them: three float64 numbers (channels 0 where it
// refuses), then the samples.
const readElsewhere = `
import sys, numpy, soundfile
for name in sys.argv[1:]:
    try:
        x, rate = soundfile.read(name, dtype='float64', always_2d=True)
    except Exception:
        x, rate = numpy.zeros((0, 0)), 0
    numpy.array([x.shape[1], rate, x.size], '<f8').tofile(sys.stdout.buffer)
    x.astype('<f8').tofile(sys.stdout.buffer)
    sys.stdout.buffer.flush()
`

// libsndfile finds an interpreter that has the library's binding, and its version.
func libsndfile(t *testing.T) (python string, source outside.Source) {
	source = outside.Source{Name: "libsndfile", Figures: "run beside this program, by Debian's python3-soundfile"}
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		version, err := exec.Command(python, "-c", "import soundfile, numpy; print(soundfile.__libsndfile_version__)").Output()
		if err == nil {
			source.Name += " " + strings.TrimSpace(string(version))
			return python, source
		}
	}
	t.Skip("install Debian's packages python3-soundfile and python3-numpy to run this")
	return "", source
}

// TestLibsndfileReadsTheSameBitForBit holds every kind of file against another
// implementation, those it sees otherwise apart (variant.foreign says why).
func TestLibsndfileReadsTheSameBitForBit(t *testing.T) {
	python, source := libsndfile(t)
	var same []variant
	for _, v := range append(variants(), allCodes()...) {
		if v.foreign != "" {
			outside.Apart(t, source, v.name, v.foreign)
			continue
		}
		same = append(same, v)
	}
	args := []string{"-c", readElsewhere}
	for i, v := range same {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("%d.wav", i))
		if err := os.WriteFile(path, v.file, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	out, err := exec.Command(python, args...).Output()
	var shapes, theirShapes [][2]float64
	for _, v := range same {
		if len(out) < 3*8 {
			t.Fatalf("%s: libsndfile gave nothing: %v", v.name, err)
		}
		head, n := floats(out[:24]), int(floats(out[16:24])[0])
		shapes, theirShapes = append(shapes, [2]float64{float64(v.channels), float64(v.rate)}), append(theirShapes, [2]float64{head[0], head[1]})
		compare(t, source, v, floats(out[24:24+8*n]))
		out = out[24+8*n:]
	}
	outside.Exact(t, source, "channels and rate of every kind of WAV file that must be read", shapes, theirShapes)
}

func compare(t *testing.T, source outside.Source, v variant, theirs []float64) {
	t.Helper()
	r, err := open(v.file)
	if err != nil {
		t.Errorf("%s: %v", v.name, err)
		return
	}
	ours, err := readAll(r, 100)
	if err != nil {
		t.Errorf("%s: %v", v.name, err)
		return
	}
	t.Run(v.name, func(t *testing.T) {
		outside.Exact(t, source, "samples of these files, bit for bit", bits(ours), bits(theirs))
	})
}

// bits are numbers as they are held, in which 0 and −0 differ.
func bits(x []float64) []uint64 {
	all := make([]uint64, len(x))
	for i, v := range x {
		all[i] = math.Float64bits(v)
	}
	return all
}

// allCodes are files that hold every code of 8 bits, and a sweep through those of
// 16, 24 and 32.
func allCodes() []variant {
	var codes, sweep []byte
	for i := range 256 {
		codes = append(codes, byte(i))
	}
	for i := range 3 * 4 * 5000 {
		sweep = append(sweep, byte(i*i*31+i>>3))
	}
	v := func(name string, head, data []byte) variant {
		return variant{name: name, file: riffWAV(head, ck("data", data)), channels: 1, rate: 48000}
	}
	return []variant{
		v("all 8-bit codes", plain(1, 1, 48000, 8, 1), codes),
		v("all A-law codes", plain(6, 1, 48000, 8, 1), codes),
		v("all mu-law codes", plain(7, 1, 48000, 8, 1), codes),
		v("sweep through 16 bits", plain(1, 1, 48000, 16, 2), sweep),
		v("sweep through 24 bits", plain(1, 1, 48000, 24, 3), sweep),
		v("sweep through 32 bits", plain(1, 1, 48000, 32, 4), sweep),
	}
}

func floats(b []byte) []float64 {
	x := make([]float64, len(b)/8)
	for i := range x {
		x[i] = math.Float64frombits(binary.LittleEndian.Uint64(b[8*i:]))
	}
	return x
}
