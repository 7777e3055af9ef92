package heard

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"earshot/report/chart/paper"
	"earshot/report/internal/golden"
)

// roomAndClicks is a spectrum with everything: a hum, and an end at 8 kHz.
func roomAndClicks() Spectrum {
	s := Spectrum{
		Title: "corvane-105.wav", About: "WAV, 16-bit PCM, 48 kHz, 1 channel, 39.8 s. Timing is limited by the recording: bandwidth.",
		Faults: []string{"Sounds reach up to 8.0 kHz. A lossy format or a voice mode has cut off the rest.", "The mains hum at 50 Hz and its multiples, -44 dBFS in all."},
		Heard:  500, Bandwidth: 8000, Mains: 50,
	}
	for hz := 20.0; hz < 24000; hz *= 1.03 {
		noise, loud := -60-15*math.Log10(hz/20), -70+12*math.Sin(hz/900)-4*math.Log10(hz/1000)
		for k := 1.0; k <= 8; k++ {
			noise += (30 - 3*k) * math.Exp(-math.Pow((hz-50*k)/3, 2))
		}
		if hz > s.Bandwidth {
			noise, loud = -145, -144
		}
		s.Noise = append(s.Noise, Level{hz, noise})
		if hz > 190 {
			s.Loud = append(s.Loud, Level{hz, loud})
		}
	}
	return s
}

func TestEverySpectrumCanBeDrawn(t *testing.T) {
	all := roomAndClicks()
	long := all
	long.Title, long.Faults = strings.Repeat("a long name ", 40), append(long.Faults, strings.Repeat("much is wrong ", 30), "too quiet", "clipped", "more")
	noiseAlone, loudAlone := all, all
	noiseAlone.Loud, loudAlone.Noise = nil, nil
	silent := Spectrum{Title: "x", Noise: []Level{{20, -200}, {24000, -200}}}
	for name, s := range map[string]Spectrum{"all": all, "long": long, "noise-alone": noiseAlone, "loud-alone": loudAlone, "silent": silent, "nothing": {}} {
		for _, f := range []paper.Format{paper.PNG, paper.SVG} {
			var one, two bytes.Buffer
			if err := errors.Join(WriteSpectrum(&one, s, f), WriteSpectrum(&two, s, f)); err != nil {
				t.Errorf("%s, %s: %v", name, f, err)
			}
			if one.Len() == 0 || !bytes.Equal(one.Bytes(), two.Bytes()) {
				t.Errorf("%s, %s: %d and %d bytes that differ", name, f, one.Len(), two.Len())
			}
		}
		golden.LookAt(t, "spectrum-"+name, func() ([]byte, error) { return paper.PNGBytes(paper.Picture{Size: s.size, Draw: s.draw}, 96) })
	}
}

func TestASpectrumNamesBandwidthAndHum(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSpectrum(&b, roomAndClicks(), paper.SVG); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"nothing above 8.0 kHz", "hum: 50 Hz and its multiples", "below 500 Hz: not listened to", "the loudest sounds", "noise between sounds"} {
		if !strings.Contains(b.String(), ">"+words+"<") {
			t.Errorf("%q is not on it", words)
		}
	}
}

func TestASpectrumIsDrawnAsPNGOrSVG(t *testing.T) {
	for file, want := range map[string]paper.Format{"a.png": paper.PNG, "a.SVG": paper.SVG, "a.pdf": "", "a": "", "a.jpg": ""} {
		if got, err := paper.FormatOf(file, paper.PNG, paper.SVG); got != want || (err == nil) != (want != "") {
			t.Errorf("%s: %q, %v, want %q", file, got, err, want)
		}
	}
	if err := WriteSpectrum(&bytes.Buffer{}, roomAndClicks(), paper.PDF); !errors.Is(err, paper.ErrFormat) {
		t.Errorf("PDF: %v", err)
	}
}
