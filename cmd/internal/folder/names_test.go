package folder

import (
	"slices"
	"strings"
	"testing"

	"earshot/report/drawer"
)

func TestClipsAreInTheOrderAPersonCounts(t *testing.T) {
	want := []string{"1.wav", "2.wav", "2a.wav", "10.wav", "a01.wav", "a1.wav", "a2b3.wav", "a2b12.wav", "a10.wav", "b.wav"}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, asCounted)
	if !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
}

func TestEveryLensHasFilesOfItsOwnThatAnySystemCanName(t *testing.T) {
	names := []string{"Corvane 105 mm f/3.5", "corvane 105 mm F 3.5", "CON", "../../etc", "", "…", "index", strings.Repeat("ä", 100), "快门", "a\x00b\xffc"}
	lenses := make([]foundLens, len(names))
	for i, name := range names {
		lenses[i].Lens = drawer.Lens{}
		lenses[i].Lens.Name = name
	}
	nameFiles(lenses)
	want := []string{"corvane-105-mm-f-3-5", "corvane-105-mm-f-3-5-2", "lens-con", "etc", "unnamed-lens", "lens", "index-2", strings.Repeat("ä", 40), "快门", "a-b-c"}
	for i, l := range lenses {
		if l.stem != want[i] {
			t.Errorf("%q: %q, want %q", names[i], l.stem, want[i])
		}
	}
}
