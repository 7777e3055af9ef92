package write_test

import (
	"bytes"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"earshot/report"
	"earshot/report/internal/golden"
	"earshot/report/internal/sample"
	"earshot/report/write"
)

func TestAComparisonKeepsItsFormat(t *testing.T) {
	c := report.Compare(sample.BeforeService(), sample.Serviced(), false, "v0.1.0")
	var text, json bytes.Buffer
	if err := write.Comparison(&text, c); err != nil {
		t.Fatal(err)
	}
	if err := write.ComparisonJSON(&json, c); err != nil {
		t.Fatal(err)
	}
	golden.Check(t, "comparison.txt", text.Bytes())
	golden.Check(t, "comparison.json", json.Bytes())
	schema, err := jsonschema.NewCompiler().Compile("../../docs/earshot-1.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(&json)
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(v); err != nil {
		t.Error(err)
	}
}
