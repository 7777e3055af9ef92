package report

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"earshot/shutter"
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

// rest is how long the lens had rested, in words: "90 d", "2 years".
func (l Lens) rest() string {
	if CheckRested(l.Rested) != nil {
		return l.Rested
	}
	number, unit := l.Rested[:len(l.Rested)-1], l.Rested[len(l.Rested)-1:]
	word := map[string]string{"h": "h", "d": "d", "w": "weeks", "y": "years"}[unit]
	if number == "1" {
		word = strings.TrimSuffix(word, "s")
	}
	return number + " " + word
}

// TheRest names the rest: "90 d rest", "2 years' rest".
func (l Lens) TheRest() string {
	long := l.rest()
	if strings.HasSuffix(long, "s") {
		long += "'"
	}
	return long + " rest"
}

// Words are what was told of the lens beside its name: "Rested 90d, 18 °C".
func (l Lens) Words() string {
	var parts []string
	if l.Shutter == string(shutter.FocalPlane) {
		parts = append(parts, "Focal-plane shutter, timed from stop to stop")
	}
	if l.Rested != "" {
		parts = append(parts, "Rested "+l.rest())
	}
	if l.Temperature != nil {
		parts = append(parts, fmt.Sprintf("%g °C", *l.Temperature))
	}
	if l.Note != "" {
		parts = append(parts, l.Note)
	}
	return strings.Join(parts, ", ")
}
