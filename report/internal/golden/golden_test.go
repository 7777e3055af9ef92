package golden

import (
	"os"
	"path/filepath"
	"testing"
)

// watched is a test that notes whether it failed.
type watched struct {
	testing.TB
	failed bool
}

func (w *watched) Helper()               {}
func (w *watched) Errorf(string, ...any) { w.failed = true }

func TestWhatIsOtherThanTheGoldenFileFails(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join("testdata", "page.txt"), []byte("steady\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for got, fails := range map[string]bool{"steady\n": false, "steady": true, "": true} {
		w := &watched{}
		Check(w, "page.txt", []byte(got))
		if w.failed != fails {
			t.Errorf("%q: failed is %v", got, w.failed)
		}
	}
}

func TestAGoldenFileIsRewrittenWhenAsked(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	*update = true
	t.Cleanup(func() { *update = false })
	Check(t, "page.txt", []byte("good\n"))
	if b, err := os.ReadFile(filepath.Join("testdata", "page.txt")); err != nil || string(b) != "good\n" {
		t.Errorf("it holds %q, %v", b, err)
	}
}
