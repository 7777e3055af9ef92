package paper

import (
	"errors"
	"testing"
)

func TestFormatsComeFromTheFilesEnding(t *testing.T) {
	for file, want := range map[string]Format{"a.png": PNG, "b.SVG": SVG, "c/d.e.pdf": PDF} {
		if got, err := FormatOf(file, PNG, SVG, PDF); got != want || err != nil {
			t.Errorf("FormatOf(%q) = %q, %v", file, got, err)
		}
	}
	for _, file := range []string{"a.jpg", "png", "", "a.png.exe"} {
		if _, err := FormatOf(file, PNG, SVG, PDF); !errors.Is(err, ErrFormat) {
			t.Errorf("FormatOf(%q) = %v, want ErrFormat", file, err)
		}
	}
}
