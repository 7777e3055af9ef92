package paper

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
)

// Format is a kind of picture.
type Format string

// The formats a chart can be written in. Sound is drawn as PNG or SVG alone.
const (
	PNG Format = "png"
	SVG Format = "svg"
	PDF Format = "pdf"
)

// ErrFormat is for a file name that ends in none of the formats.
var ErrFormat = errors.New("no format for this picture")

// FormatOf takes the format from the ending of a file's name. It must be one of those allowed.
func FormatOf(file string, allowed ...Format) (Format, error) {
	f := Format(strings.ToLower(strings.TrimPrefix(filepath.Ext(file), ".")))
	if slices.Contains(allowed, f) {
		return f, nil
	}
	return "", fmt.Errorf("%w: %q, allowed are %s", ErrFormat, filepath.Ext(file), endings(allowed))
}

// endings are the endings of formats in words: .png, .svg and .pdf.
func endings(formats []Format) string {
	words := make([]string, len(formats))
	for i, f := range formats {
		words[i] = "." + string(f)
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
