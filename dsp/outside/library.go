package outside

import (
	"encoding/json"
	"os"
	"testing"
)

// SciPy is the library for Python. Its figures are written by the scripts in the
// testdata of a package, which say how they are run.
func SciPy() Source {
	return Source{Name: "SciPy 1.10.1", Figures: "written by the scripts in testdata beside each test, with Debian's python3-scipy"}
}

// ReadFigures reads what a library made, as the script beside the file wrote it: JSON.
func ReadFigures(t testing.TB, file string, into any) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
}
