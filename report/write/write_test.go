package write_test

import (
	"bytes"
	"strings"
	"testing"

	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
	"earshot/report/words"
	"earshot/report/write"
)

func TestWritersKeepTheirFormat(t *testing.T) {
	d := sample.Document()
	writers := []struct {
		file  string
		write func(*bytes.Buffer) error
	}{
		{"sitting.json", func(b *bytes.Buffer) error { return write.JSON(b, d) }},
		{"sitting.csv", func(b *bytes.Buffer) error { return write.CSV(b, d) }},
		{"sitting.txt", func(b *bytes.Buffer) error { return write.Text(b, d) }},
	}
	for _, w := range writers {
		var b bytes.Buffer
		if err := w.write(&b); err != nil {
			t.Errorf("%s: %v", w.file, err)
		}
		golden.Check(t, w.file, b.Bytes())
	}
}

func TestAssumedIsSaidOnEveryLineOfTheTable(t *testing.T) {
	d := sample.Document()
	for i := range d.Speeds {
		d.Speeds[i].Assumed = true
	}
	var b bytes.Buffer
	if err := write.Text(&b, d); err != nil {
		t.Fatal(err)
	}
	for _, s := range d.Speeds {
		if !strings.Contains(b.String(), words.Mark(s.Marked)+" assumed") {
			t.Errorf("%s is not marked as assumed in\n%s", s.Marked, b.String())
		}
	}
}
