package main

import (
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
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
// "silence FILE" writes a clip without a firing; "cut IN OUT FROM TO" writes what one
// clip holds between two times in s, "coarse IN OUT" the same in 8 bits; "decoder" puts
// the decoder of phone formats on PATH, "! decoder" leaves nothing there but earshot; "from N FILE" keeps a file's lines from the N-th.
func TestScripts(t *testing.T) {
	schema := sync.OnceValues(func() (*jsonschema.Schema, error) {
		return jsonschema.NewCompiler().Compile(filepath.Join("..", "..", "docs", "earshot-1.schema.json"))
	})
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatal(err)
	}
	decoder := sync.OnceValues(func() (string, error) { return buildDecoder(t) })
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join("testdata", "script"),
		Setup: func(e *testscript.Env) error {
			e.Setenv("ESC", "\x1b")
			e.Setenv("XDG_CACHE_HOME", cache)
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
				ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o755))
				ts.Check(os.WriteFile(ts.MkAbs(args[0]), silence(), 0o644))
			},
			"cut": func(ts *testscript.TestScript, neg bool, args []string) {
				from, err := strconv.Atoi(args[2])
				ts.Check(err)
				to, err := strconv.Atoi(args[3])
				ts.Check(err)
				rate, samples := readMono(ts, args[0])
				writeMono(ts, args[1], mono{rate, 16, samples[2*rate*from : min(2*rate*to, len(samples))]})
			},
			"coarse": func(ts *testscript.TestScript, neg bool, args []string) {
				rate, samples := readMono(ts, args[0])
				var coarse []byte
				for i := 0; i < len(samples); i += 2 {
					x := int(int16(binary.LittleEndian.Uint16([]byte(samples[i:]))))
					coarse = append(coarse, byte(min(max((x+128)>>8, -128), 127)+128))
				}
				writeMono(ts, args[1], mono{rate, 8, string(coarse)})
			},
			"decoder": func(ts *testscript.TestScript, neg bool, args []string) {
				program, err := exec.LookPath("earshot")
				ts.Check(err)
				if neg {
					ts.Setenv("PATH", filepath.Dir(program))
					return
				}
				folder, err := decoder()
				ts.Check(err)
				ts.Setenv("PATH", folder+string(os.PathListSeparator)+os.Getenv("PATH"))
			},
			"from": func(ts *testscript.TestScript, neg bool, args []string) {
				n, err := strconv.Atoi(args[0])
				ts.Check(err)
				lines := strings.SplitAfterN(ts.ReadFile(args[1]), "\n", n)
				ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(lines[len(lines)-1]), 0o644))
			},
			"same": func(ts *testscript.TestScript, neg bool, args []string) {
				if alike := ts.ReadFile(args[0]) == ts.ReadFile(args[1]); alike == neg {
					ts.Fatalf("%s and %s: the same bytes: %v", args[0], args[1], alike)
				}
			},
		},
	})
}

// buildDecoder builds the decoder of phone formats and returns its folder.
func buildDecoder(t *testing.T) (string, error) {
	folder := t.TempDir()
	out, err := exec.Command("go", "build", "-o", folder+string(filepath.Separator), "../earshot-decode").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return folder, nil
}

// mono is the samples of a clip of one channel, as they stand in the file.
type mono struct {
	rate, bits int
	samples    string
}

// readMono reads a WAV of 16 bits on one channel whose header is the plain 44 bytes.
func readMono(ts *testscript.TestScript, file string) (rate int, samples string) {
	wav := ts.ReadFile(file)
	if wav[22] != 1 || wav[34] != 16 || wav[36:40] != "data" {
		ts.Fatalf("%s is no plain WAV of 16 bits on one channel", file)
	}
	return int(binary.LittleEndian.Uint32([]byte(wav[24:]))), wav[44:]
}

func writeMono(ts *testscript.TestScript, file string, m mono) {
	head := binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(36+len(m.samples)))
	head = append(head, "WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00"...)
	head = binary.LittleEndian.AppendUint32(head, uint32(m.rate))
	head = binary.LittleEndian.AppendUint32(head, uint32(m.rate*m.bits/8))
	head = append(head, byte(m.bits/8), 0, byte(m.bits), 0)
	head = binary.LittleEndian.AppendUint32(append(head, "data"...), uint32(len(m.samples)))
	ts.Check(os.WriteFile(ts.MkAbs(file), append(head, m.samples...), 0o644))
}
