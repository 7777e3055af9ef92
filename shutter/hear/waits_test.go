package hear

import (
	"slices"
	"testing"
)

// spanning are pairs of the given spans, s, of which those of the second list buzz.
func spanning(spans []float64, buzzing ...float64) []pair {
	var set []pair
	for i, span := range spans {
		p := pair{open: 2 * i, close: 2*i + 1, span: span}
		if slices.Contains(buzzing, span) {
			p.buzz, p.margin = 10, 25
		}
		set = append(set, p)
	}
	return set
}

func TestWhatAHandWaitedIsNoFiring(t *testing.T) {
	tests := []struct {
		name    string
		spans   []float64
		buzzing []float64
		left    []float64
	}{
		{"firings at one speed stay", []float64{1.02, 1.01, 1.03}, nil, []float64{1.02, 1.01, 1.03}},
		{"one firing at each speed stays", []float64{1.02, 0.51, 0.26, 0.124}, nil, []float64{1.02, 0.51, 0.26, 0.124}},
		{"a single firing stays", []float64{1.02}, nil, []float64{1.02}},
		{"waits that go nowhere leave nothing", []float64{0.9, 1.5, 0.75, 1.4, 0.85, 1.2, 0.62}, nil, nil},
		{"so long in a buzz are firings that err", []float64{0.9, 1.5, 0.75}, []float64{0.9, 1.5, 0.75}, []float64{0.9, 1.5, 0.75}},
		{"fast firings stay without the waits after them", []float64{0.016, 0.017, 0.016, 0.8, 1.25, 0.9, 0.65}, nil, []float64{0.016, 0.017, 0.016}},
		{"two waits may be nearly alike", []float64{0.016, 0.017, 0.016, 1.5, 1.65}, nil, []float64{0.016, 0.017, 0.016}},
		{"slow firings after fast ones stay", []float64{0.016, 0.017, 0.016, 1.01, 1.0, 1.02}, nil, []float64{0.016, 0.017, 0.016, 1.01, 1.0, 1.02}},
		{"what repeated by waits alone goes with them", []float64{0.016, 0.017, 0.8, 1.25, 0.9, 0.65}, nil, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			set := spanning(tt.spans, tt.buzzing...)
			var left []float64
			for _, p := range withoutWaits(set) {
				left = append(left, p.span)
			}
			if !slices.Equal(left, tt.left) {
				t.Errorf("left of %v: %v, want %v", tt.spans, left, tt.left)
			}
			for i, p := range set {
				if p.span != tt.spans[i] {
					t.Fatalf("the set itself was changed: pair %d is of %v s, and was of %v", i, p.span, tt.spans[i])
				}
			}
		})
	}
}

func TestASetShowsWhatTimedIt(t *testing.T) {
	tests := []struct {
		name    string
		spans   []float64
		buzzing []float64
		want    bool
	}{
		{"firings at one speed show a shutter", []float64{0.066, 0.067, 0.065}, nil, true},
		{"fast ones do, whatever comes after", []float64{0.016, 0.017, 0.016, 2.5}, nil, true},
		{"a buzz does", []float64{0.25, 0.4, 0.3}, []float64{0.25, 0.4, 0.3}, true},
		{"keys pressed and let go do not", []float64{0.064, 0.078, 0.095, 0.13, 0.084}, nil, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := shows(spanning(tt.spans, tt.buzzing...)); got != tt.want {
				t.Errorf("shows of %v: %v, want %v", tt.spans, got, tt.want)
			}
		})
	}
}
