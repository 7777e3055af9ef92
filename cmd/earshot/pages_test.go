package main

import (
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// page reads a page of the project.
func page(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestEveryFileThatTheArchitectureNamesIsThere(t *testing.T) {
	named := regexp.MustCompile("`([a-z/_*-]+\\.(?:go|json))`").FindAllStringSubmatch(page(t, "docs/architecture.md"), -1)
	if len(named) < 20 {
		t.Fatalf("it names %d files", len(named))
	}
	for _, n := range named {
		there := false
		for _, folder := range []string{"", "cmd/earshot", "dsp", "dsp/clip", "shutter", "shutter/hear", "shutter/assign", "shutter/judge", "report", "docs"} {
			found, _ := filepath.Glob(filepath.Join("..", "..", folder, n[1]))
			there = there || len(found) > 0
		}
		if !there {
			t.Errorf("there is no %s", n[1])
		}
	}
}

func TestEveryPackageHasItsLineInTheLayout(t *testing.T) {
	layout := page(t, "DEVELOPERS.md")
	for pkg := range imports(t) {
		name := strings.TrimPrefix(pkg, "earshot/")
		if !strings.Contains(name, "/internal/") && !regexp.MustCompile("(?m)^\\| (`[a-z/-]+`, )*`"+name+"`").MatchString(layout) {
			t.Errorf("DEVELOPERS.md has no line for %s", name)
		}
	}
}

func TestEveryCommandHasItsLineInTheReadme(t *testing.T) {
	readme := page(t, "README.md")
	for _, c := range newRoot(app{stdin: strings.NewReader(""), stdout: io.Discard, stderr: io.Discard}).Commands() {
		if c.Hidden || c.Name() == "help" || c.Name() == "completion" {
			continue
		}
		if !strings.Contains(readme, "\n| `earshot "+c.Name()) {
			t.Errorf("README.md has no line for earshot %s", c.Name())
		}
	}
}
