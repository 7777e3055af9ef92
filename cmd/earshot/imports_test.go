package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// imports lists the direct imports of every package of the module, tests left out.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \" \"}}", "earshot/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	all := make(map[string][]string)
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		all[f[0]] = f[1:]
	}
	return all
}

// within says whether a package is the other or lies below it.
func within(pkg, root string) bool { return pkg == root || strings.HasPrefix(pkg, root+"/") }

func TestImportsPointOneWay(t *testing.T) {
	order := []string{"earshot/dsp", "earshot/shutter", "earshot/report", "earshot/cmd"}
	rank := func(pkg string) int {
		return slices.IndexFunc(order, func(root string) bool { return within(pkg, root) })
	}
	all := imports(t)
	if len(all) < 6 {
		t.Fatalf("go list finds only %d packages", len(all))
	}
	for pkg, list := range all {
		if rank(pkg) < 0 {
			t.Errorf("%s lies outside dsp, shutter, report and cmd", pkg)
		}
		for _, i := range list {
			if within(i, "earshot") && rank(i) > rank(pkg) {
				t.Errorf("%s imports %s", pkg, i)
			}
		}
	}
}

// Below shutter arrows point to the nouns: judge → assign → shutter ← hear → dsp. What
// judging needs of a sound is in a firing, so that hearing can be replaced.
func TestPackagesOfShutterImportNoOthers(t *testing.T) {
	const shutter = "earshot/shutter"
	may := map[string][]string{
		shutter:                     nil,
		shutter + "/internal/pick":  nil,
		shutter + "/assign":         {shutter, shutter + "/internal/pick"},
		shutter + "/judge":          {shutter, shutter + "/internal/pick", shutter + "/assign"},
		shutter + "/hear":           {shutter, shutter + "/hear/recording", shutter + "/hear/scene", shutter + "/hear/timing", "earshot/dsp"},
		shutter + "/hear/timing":    {shutter, shutter + "/hear/recording", "earshot/dsp"},
		shutter + "/hear/recording": {shutter + "/hear/scene", "earshot/dsp"},
		shutter + "/hear/scene":     {"earshot/dsp"},
	}
	found := 0
	for pkg, list := range imports(t) {
		if !within(pkg, shutter) {
			continue
		}
		own, known := may[pkg]
		if found++; !known {
			t.Errorf("%s is not among the packages of shutter: say here what it may import", pkg)
		}
		for _, i := range list {
			dsp := slices.Contains(own, "earshot/dsp")
			switch {
			case within(i, "earshot/dsp") && !dsp, within(i, shutter) && !slices.Contains(own, i):
				t.Errorf("%s imports %s", pkg, i)
			case !dsp && slices.Contains([]string{"os", "io", "io/fs", "path/filepath"}, i):
				t.Errorf("%s imports %s, and knows no files", pkg, i)
			}
		}
	}
	if found != len(may) {
		t.Errorf("%d packages in shutter, want %d", found, len(may))
	}
}

func TestDependenciesHaveOnePlace(t *testing.T) {
	only := []struct{ dependency, places string }{
		{"github.com/go-audio", "earshot/dsp/wavfile"},
		{"github.com/mjibson/go-dsp", "earshot/dsp"},
		{"gonum.org/v1/plot", "earshot/report/chart"},
		{"github.com/BurntSushi/toml", "earshot/report/settings"},
		{"github.com/jedib0t/go-pretty", "earshot/report/write earshot/report/drawer earshot/cmd/earshot"},
		{"codeberg.org/go-pdf/fpdf", "earshot/report"},
		{"github.com/spf13/cobra", "earshot/cmd/earshot"},
		{"github.com/spf13/pflag", "earshot/cmd/earshot"},
		{"os/signal", "earshot/cmd/earshot"},
		{"github.com/vbauerster/mpb", "earshot/cmd/earshot"},
		{"golang.org/x/text", "earshot/report/drawer"},
		{"earshot/dsp/align", "earshot/shutter"}, // so dsp can't import what looks again at what it heard
		{"earshot/dsp/describe", "earshot/shutter earshot/report earshot/cmd"},
		{"earshot/dsp/synth", "earshot/cmd"},
		{"earshot/dsp/outside", "earshot/cmd/earshot-accuracy"},
		{"earshot/dsp/clip", "earshot/cmd"},
		{"earshot/shutter/hear", "earshot/cmd"},                        // what is found in a clip reaches the rest as nouns
		{"os/exec", "earshot/cmd earshot/dsp/clip"},                    // which has other formats decoded by a process of its own
		{"codeberg.org/gruf/go-ffmpreg", "earshot/cmd/earshot-decode"}, // GPLv3, 20 MB, 0.2 s at each start
		{"github.com/tetratelabs/wazero", "earshot/cmd/earshot-decode"},
		{"earshot/report/internal/golden", "nowhere"}, // but in tests
		{"earshot/report/internal/sample", "nowhere"}, // likewise
		{"net/http", "nowhere"},
		{"unsafe", "nowhere"},
	}
	for pkg, list := range imports(t) {
		for _, i := range list {
			for _, o := range only {
				home := slices.ContainsFunc(strings.Fields(o.places), func(place string) bool { return within(pkg, place) })
				if within(i, o.dependency) && !home && !within(pkg, o.dependency) {
					t.Errorf("%s imports %s, which belongs to %s", pkg, i, o.places)
				}
			}
		}
	}
}

// Rooms of report and cmd, and what of the module each must do without.
func TestRoomsKnowNoMoreThanTheyNeed(t *testing.T) {
	without := []struct{ room, others string }{
		{"earshot/report/words", "earshot/report earshot/shutter earshot/dsp"},
		{"earshot/report/settings", "earshot/report/write earshot/report/chart earshot/report/sheet earshot/report/drawer"},
		{"earshot/report/write", "earshot/report/chart earshot/report/sheet earshot/report/drawer earshot/report/labels"},
		{"earshot/report/labels", "earshot/report/chart earshot/report/write"},
		{"earshot/report/chart/paper", "earshot/report earshot/shutter earshot/dsp"},
		{"earshot/report/chart", "earshot/report/write earshot/report/sheet earshot/report/drawer"},
		{"earshot/cmd/internal/fault", "earshot/cmd"},
		{"earshot/cmd/internal/files", "earshot/report earshot/shutter earshot/dsp"},
		{"earshot/cmd/internal/sitting", "earshot/report/write earshot/report/chart earshot/report/sheet earshot/report/drawer earshot/cmd/internal/folder"},
	}
	all := imports(t)
	for _, w := range without {
		if all[w.room] == nil {
			t.Errorf("there is no package %s", w.room)
		}
		for pkg, list := range all {
			for _, i := range list {
				if within(pkg, w.room) && !within(i, w.room) && slices.ContainsFunc(strings.Fields(w.others), func(other string) bool { return within(i, other) && i != "earshot/cmd/internal/fault" }) {
					t.Errorf("%s imports %s", pkg, i)
				}
			}
		}
	}
}

// The root of report is imported by its rooms, and imports none but the words.
func TestTheRecordKnowsNoWriter(t *testing.T) {
	for _, i := range imports(t)["earshot/report"] {
		if within(i, "earshot/report") && i != "earshot/report/words" {
			t.Errorf("the record imports %s", i)
		}
	}
}

func TestOnlyCommandsExit(t *testing.T) {
	out, _ := exec.Command("grep", "-rlE", `\bos\.Exit\(|\blog\.Fatal`, "--include=*.go", "../../dsp", "../../shutter", "../../report", "../internal").Output()
	if len(out) > 0 {
		t.Errorf("these end the program and must not:\n%s", out)
	}
}
