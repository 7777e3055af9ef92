package pdf

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

func written(t *testing.T, made time.Time) string {
	t.Helper()
	p := New(Portrait, made, "v1", "Ωmega 50")
	p.AddPage()
	p.SetFont("sans", "", 10)
	p.Cell(100, 5, "½ s, Ł and Ж")
	var b bytes.Buffer
	if err := p.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestAPDFIsOfTheDateOfItsRecordAndNeverOfNow(t *testing.T) {
	for date, made := range map[string]time.Time{"20261125143000": time.Date(2026, 11, 25, 14, 30, 0, 0, time.UTC), "19700101000000": {}} {
		b := written(t, made)
		for _, key := range []string{"/CreationDate", "/ModDate"} {
			if !strings.Contains(b, key+" (D:"+date) {
				t.Errorf("%s is not %s", key, date)
			}
		}
	}
}

func TestTheSameRecordGivesTheSameBytes(t *testing.T) {
	one, two := written(t, time.Time{}), written(t, time.Time{})
	if one != two {
		t.Error("two PDFs of the same differ")
	}
}
