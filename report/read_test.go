package report_test

import (
	"strings"
	"testing"

	"earshot/report"
)

func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"schema": "earshot/1"}`))
	f.Add([]byte(edited(&testing.T{}, "x", "x")))
	f.Fuzz(func(t *testing.T, b []byte) {
		d, err := report.Read(strings.NewReader(string(b)))
		if err != nil {
			return
		}
		d.Headlines()
		var text, table, again strings.Builder
		if err := report.WriteText(&text, d); err != nil {
			t.Error(err)
		}
		if err := report.WriteCSV(&table, d); err != nil {
			t.Error(err)
		}
		if err := report.WriteJSON(&again, d); err != nil {
			t.Error(err)
		}
	})
}
