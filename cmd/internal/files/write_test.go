package files

import (
	"os"
	"path/filepath"
	"testing"
)

func TestAFailedWriteLeavesNothingBehind(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "record.json")
	if err := os.WriteFile(target, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	err := Write(t.Context(), target, func(f *os.File) error {
		f.WriteString("half")
		return os.ErrDeadlineExceeded
	})
	left, _ := os.ReadDir(dir)
	old, _ := os.ReadFile(target)
	if err == nil || len(left) != 1 || string(old) != "old" {
		t.Errorf("error %v, %d files, %q in the old one", err, len(left), old)
	}
}
