package main

import (
	"fmt"
	"os"

	"earshot/dsp/quality"
	"earshot/report/chart/heard"
)

// linesAnOctave is how finely a spectrum is drawn.
const linesAnOctave = 24

func writeSpectrum(o soundOptions, h Heard) error {
	return writeFile(o.chart, func(f *os.File) error { return heard.WriteSpectrum(f, spectrumOf(h), o.chartFormat) })
}

// spectrumOf is what the picture of a clip's sound shows.
func spectrumOf(h Heard) heard.Spectrum {
	s := heard.Spectrum{
		Title: h.facts.File, About: fmt.Sprintf("%s, %.1f s. %s", h.facts.Format, h.facts.Duration, h.facts.Sound.Fitness()),
		Heard: quality.LowestHeard, Noise: levelsOf(h.quality.Noise), Loud: levelsOf(h.quality.Loud), Mains: h.quality.Hum.Frequency,
	}
	if h.quality.Bandwidth < float64(h.facts.Rate)/2 {
		s.Bandwidth = h.quality.Bandwidth
	}
	for _, f := range h.facts.Sound.Faults() {
		s.Faults = append(s.Faults, f.Text)
	}
	return s
}

func levelsOf(s *quality.Spectrum) []heard.Level {
	if s == nil {
		return nil
	}
	var levels []heard.Level
	for _, l := range s.Levels(linesAnOctave) {
		levels = append(levels, heard.Level(l))
	}
	return levels
}
