// Package pick takes some of a list by their places in it.
package pick

// At returns the values at the places.
func At[T any](x []T, places []int) []T {
	out := make([]T, len(places))
	for i, k := range places {
		out[i] = x[k]
	}
	return out
}
