package report_test

import (
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/write"
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
		if err := write.Text(&text, d); err != nil {
			t.Error(err)
		}
		if err := write.CSV(&table, d); err != nil {
			t.Error(err)
		}
		if err := write.JSON(&again, d); err != nil {
			t.Error(err)
		}
	})
}
