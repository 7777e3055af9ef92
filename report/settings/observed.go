package settings

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"earshot/report"
)

// ErrObserved is for a file of observations that can't be taken.
var ErrObserved = errors.New("not a list of what was seen")

// Seen are the observations that a column of a drawer's table or a key of a file may
// hold, in the order in which the sheet prints them.
var Seen = []string{"fast_speeds", "flash_contact", "aperture", "glass", "body", "other"}

// ReadObserved reads what a person saw of a lens from TOML: a line for each of [Seen],
// and who it was in "by". A key that is not known is refused. Errors wrap [ErrObserved]
// or the reader's own.
func ReadObserved(r io.Reader) (seen []report.Observation, by string, err error) {
	text, err := readTOML(r)
	switch {
	case errors.Is(err, ErrTOML):
		return nil, "", fmt.Errorf("%w: %w", ErrObserved, err)
	case err != nil:
		return nil, "", err
	}
	var lines map[string]string
	if _, err := toml.Decode(text, &lines); err != nil {
		var at toml.ParseError
		if errors.As(err, &at) {
			return nil, "", fmt.Errorf("%w: line %d: %s", ErrObserved, at.Position.Line, at.Message)
		}
		return nil, "", fmt.Errorf("%w: every line is a name, = and words in quotes: %s", ErrObserved, strings.TrimPrefix(err.Error(), "toml: "))
	}
	for key := range lines {
		if key != "by" && !slices.Contains(Seen, key) {
			return nil, "", fmt.Errorf("%w: %q is not known; known are by, %s", ErrObserved, key, strings.Join(Seen, ", "))
		}
	}
	return Observations(func(what string) string { return lines[what] }), lines["by"], nil
}

// Observations are what was said of each of [Seen], where something was.
func Observations(said func(what string) string) []report.Observation {
	var out []report.Observation
	for _, what := range Seen {
		if words := strings.TrimSpace(said(what)); words != "" {
			out = append(out, report.Observation{What: strings.ReplaceAll(what, "_", " "), Seen: words})
		}
	}
	return out
}
