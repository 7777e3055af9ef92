package settings

import (
	"errors"
	"fmt"
	"io"
	"strings"
)

// Bounds of a file in TOML that a person writes: a page of remarks is a tenth of maxTOML.
const (
	maxTOML     = 32 << 10 // bytes
	maxTOMLLine = 2 << 10  // bytes
	maxBrackets = 100      // none is needed
)

// ErrTOML is for a file that no person wrote as a policy or a list of observations.
var ErrTOML = errors.New("too much for a file of settings")

// readTOML reads a file of settings to be decoded. Brackets in brackets and keys of keys
// are refused before: the decoder takes memory by the square of their number. Errors wrap
// [ErrTOML] or the reader's own.
func readTOML(r io.Reader) (string, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxTOML+1))
	if err != nil {
		return "", err
	}
	text := string(b)
	if len(text) > maxTOML {
		return "", fmt.Errorf("%w: larger than %d KB", ErrTOML, maxTOML>>10)
	}
	if n := strings.Count(text, "[") + strings.Count(text, "{"); n > maxBrackets {
		return "", fmt.Errorf("%w: %d brackets", ErrTOML, n)
	}
	n := 0
	for line := range strings.Lines(text) {
		if n++; len(line) > maxTOMLLine {
			return "", fmt.Errorf("%w: line %d is longer than %d KB", ErrTOML, n, maxTOMLLine>>10)
		}
	}
	return text, nil
}
