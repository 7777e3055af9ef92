package shutter

import (
	"errors"
	"fmt"
)

// Kind is how a shutter is built, as far as it changes what is heard of it. It is
// told, not found out.
type Kind string

// The kinds of shutter that can be heard.
const (
	Leaf       Kind = "leaf"        // blades that open and close, each way with a sound of its own
	FocalPlane Kind = "focal-plane" // two curtains that sound alike, timed from stop to stop
)

// ErrKind is for a kind of shutter that is not known.
var ErrKind = errors.New("no such kind of shutter")

// ParseKind reads a kind of shutter. Its error is ErrKind, wrapped.
func ParseKind(s string) (Kind, error) {
	switch k := Kind(s); k {
	case Leaf, FocalPlane:
		return k, nil
	}
	return "", fmt.Errorf("%w: %q; known are %s and %s", ErrKind, s, Leaf, FocalPlane)
}
