// Package golden holds, for tests, what is written to files that a person has looked at:
// the golden files in a package's testdata, rewritten by -update.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// Check fails the test where got is not what the golden file of a name holds.
func Check(t testing.TB, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s has changed; look at it, then run with -update (-golden +now):\n%.4000s", file, d)
	}
}
