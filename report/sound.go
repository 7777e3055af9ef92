package report

// newSound rounds what was measured of a clip and says what it means. Findings that
// were made before, by the program that wrote a record, stand.
func newSound(s Sound) Sound {
	s.Lost, s.Smear, s.Recovery = seconds(s.Lost), seconds(s.Smear), round(s.Recovery, 2)
	for _, x := range []**float64{&s.Noise, &s.Peak, &s.Floor, &s.Click, &s.ClickOver, &s.Bandwidth} {
		*x = decibels(*x)
	}
	if s.Hum != nil {
		s.Hum = &Hum{s.Hum.Frequency, round(s.Hum.Level, 2)}
	}
	s.Dead, s.Opposite, s.Findings = each(s.Dead, same), each(s.Opposite, same), each(s.Findings, same)
	return s
}

// WithFindings is the clip with what is found about its sound.
func (c Clip) WithFindings() Clip {
	c.Sound.Findings = c.findings()
	return c
}

// Faults are the findings that are better recorded otherwise.
func (s Sound) Faults() []SoundFinding {
	var faults []SoundFinding
	for _, f := range s.Findings {
		if f.Fault {
			faults = append(faults, f)
		}
	}
	return faults
}
