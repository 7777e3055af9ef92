package golden

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var look = flag.String("look", "", "write every chart as PNG, 800 px wide, into this folder, to be looked at")

// LookAt writes a picture to be looked at, where that was asked for.
func LookAt(t *testing.T, name string, draw func() ([]byte, error)) {
	t.Helper()
	if *look == "" {
		return
	}
	b, err := draw()
	if err == nil {
		err = os.WriteFile(filepath.Join(*look, name+".png"), b, 0o644)
	}
	if err != nil {
		t.Error(err)
	}
}

// TextOf is the text of an SVG, which it must be.
func TextOf(t *testing.T, svg []byte) string {
	t.Helper()
	var text strings.Builder
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return text.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := token.(xml.CharData); ok {
			text.Write(c)
		}
	}
}
