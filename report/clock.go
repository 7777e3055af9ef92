package report

// Clock is how far the clock of a recorder is off, told by a ticking clock.
type Clock struct {
	File    string  `json:"file"`
	SHA256  string  `json:"sha256"`
	Every   float64 `json:"every_s"`
	Error   float64 `json:"error_ppm"` // + is fast
	U95     float64 `json:"u95_ppm"`   // the ticking clock taken for right
	Ticks   int     `json:"ticks"`
	Missed  int     `json:"missed"`
	Others  int     `json:"others"`
	Scatter float64 `json:"scatter_s"`
	Uneven  float64 `json:"uneven_s"`
}

// Rounded is the clock's error as a document holds it.
func (c Clock) Rounded() Clock {
	c.Error, c.U95 = round(c.Error, 4), round(c.U95, 4)
	c.Scatter, c.Uneven = seconds(c.Scatter), seconds(c.Uneven)
	return c
}
