package report_test

import (
	"bytes"
	"strings"
	"testing"

	"earshot/report"
	"earshot/report/internal/sample"
	"earshot/report/write"
	"earshot/shutter"
)

func TestARecordThatNamesAFirstFiringThatIsNotThereIsDamaged(t *testing.T) {
	d := sample.Rested("90d", sample.Firing(0, 1, 1, shutter.Mark{Label: "1", Nominal: 1}))
	beyond := 7
	d.Rest.Firing = &beyond
	var b bytes.Buffer
	if err := write.JSON(&b, d); err != nil {
		t.Fatal(err)
	}
	if _, err := report.Read(&b); err == nil || !strings.Contains(err.Error(), "firing 7") {
		t.Errorf("read with %v", err)
	}
}
