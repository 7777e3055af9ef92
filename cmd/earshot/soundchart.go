package main

import (
	"fmt"
	"os"

	"earshot/dsp/quality"
	"earshot/report/chart"
)

// linesAnOctave is how finely a spectrum is drawn.
const linesAnOctave = 24

func writeSpectrum(o soundOptions, h heard) error {
	return writeFile(o.chart, func(f *os.File) error { return chart.WriteSpectrum(f, spectrumOf(h), o.chartFormat) })
}

// spectrumOf is what the picture of a clip's sound shows.
func spectrumOf(h heard) chart.Spectrum {
	s := chart.Spectrum{
		Title: h.facts.File, About: fmt.Sprintf("%s, %.1f s. %s", h.facts.Format, h.facts.Duration, h.facts.Sound.Fitness()),
		Heard: quality.LowestHeard, Noise: levelsOf(h.Quality.Noise), Loud: levelsOf(h.Quality.Loud), Mains: h.Quality.Hum.Frequency,
	}
	if h.Quality.Bandwidth < float64(h.facts.Rate)/2 {
		s.Bandwidth = h.Quality.Bandwidth
	}
	for _, f := range h.facts.Sound.Faults() {
		s.Faults = append(s.Faults, f.Text)
	}
	return s
}

func levelsOf(s *quality.Spectrum) []chart.Level {
	if s == nil {
		return nil
	}
	var levels []chart.Level
	for _, l := range s.Levels(linesAnOctave) {
		levels = append(levels, chart.Level(l))
	}
	return levels
}
