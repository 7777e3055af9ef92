package outside

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

func (r *recorder) Fatal(args ...any) {
	r.failed = append(r.failed, "the end")
	runtime.Goexit()
}

func (r *recorder) Fatalf(string, ...any) { r.Fatal() }

// readOf reads figures from a file as a test of its own.
func readOf(file string) (figures []float64, failed bool) {
	var r recorder
	done := make(chan struct{})
	go func() {
		defer close(done)
		ReadFigures(&r, file, &figures)
	}()
	<-done
	return figures, len(r.failed) > 0
}

func TestFiguresThatCannotBeReadEndTheTest(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{"good.json": "[1.5, 2]", "cut.json": "[1.5,", "other.json": `{"a": 1}`} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if got, failed := readOf(filepath.Join(folder, "good.json")); failed || len(got) != 2 || got[0] != 1.5 {
		t.Errorf("read %v, failed %v, want 1.5 and 2", got, failed)
	}
	for _, name := range []string{"cut.json", "other.json", "missing.json"} {
		if _, failed := readOf(filepath.Join(folder, name)); !failed {
			t.Errorf("%s passes", name)
		}
	}
}

func TestAgreeHoldsOneFigure(t *testing.T) {
	var r recorder
	Agree(&r, SciPy(), "a figure", 1.0001, 1, 3)
	Agree(&r, SciPy(), "a figure", 1.01, 1, 3)
	if len(r.findings) != 1 || len(r.failed) != 1 {
		t.Errorf("found %v, failed %q, want one of each", r.findings, r.failed)
	}
}
