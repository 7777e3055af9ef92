package main

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"earshot": main})
}

// TestScripts runs whole commands. "holds FILE" holds a file to the record's schema;
// "same A B" compares bytes;
// "silence FILE" writes a clip without a firing.
func TestScripts(t *testing.T) {
	schema := sync.OnceValues(func() (*jsonschema.Schema, error) {
		return jsonschema.NewCompiler().Compile(filepath.Join("..", "..", "docs", "earshot-1.schema.json"))
	})
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("testdata", "script"),
		Setup: func(e *testscript.Env) error {
			e.Setenv("ESC", "\x1b")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"holds": func(ts *testscript.TestScript, neg bool, args []string) {
				s, err := schema()
				ts.Check(err)
				v, err := jsonschema.UnmarshalJSON(strings.NewReader(ts.ReadFile(args[0])))
				ts.Check(err)
				ts.Check(s.Validate(v))
			},
			"silence": func(ts *testscript.TestScript, neg bool, args []string) {
				ts.Check(os.WriteFile(ts.MkAbs(args[0]), silence(), 0o644))
			},
			"same": func(ts *testscript.TestScript, neg bool, args []string) {
				if alike := ts.ReadFile(args[0]) == ts.ReadFile(args[1]); alike == neg {
					ts.Fatalf("%s and %s: the same bytes: %v", args[0], args[1], alike)
				}
			},
		},
	})
}
