package report

import (
	"errors"
	"regexp"
)

var rest = regexp.MustCompile(`^[0-9]{1,6}[hdwy]$`)

// CheckRested says what is wrong with a time unused as a person wrote it.
func CheckRested(s string) error {
	if rest.MatchString(s) {
		return nil
	}
	return errors.New("write a whole number of hours, days, weeks or years, as in 12h, 90d, 6w or 2y")
}

// CheckTemperature says what is wrong with the temperature of a lens in °C.
func CheckTemperature(celsius float64) error {
	if celsius > -60 && celsius < 100 {
		return nil
	}
	return errors.New("no lens is that warm or cold, give it in °C")
}
