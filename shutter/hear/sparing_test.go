package hear

import "testing"

func TestAPairIsSparedAndTheSetStays(t *testing.T) {
	set := []pair{{open: 0, close: 1, span: 1}, {open: 2, close: 3, span: 0.5}, {open: 4, close: 5, span: 0.25}}
	left := sparing(set, []pair{{open: set[0].open, close: set[0].close}})
	if len(left) != 2 || left[0].span != 0.5 || left[1].span != 0.25 {
		t.Errorf("left %v, want the last two", left)
	}
	for i, want := range []float64{1, 0.5, 0.25} {
		if set[i].span != want {
			t.Errorf("pair %d of the set is now of %v s, and was of %v", i, set[i].span, want)
		}
	}
}
