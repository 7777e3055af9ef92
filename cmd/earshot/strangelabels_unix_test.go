//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"earshot/report/words"
)

// hostileName is harmful to a terminal, a spreadsheet and a page that do not see to it.
const hostileName = "=1+1\x1b[31m\u202e\u009b2J<script>alert(1)<script>\"'`&\n"

func TestLabelsOfAStrangerAreOnlyTextEverywhere(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	clip := at(hostileName + ".wav")
	fired(t, clip)
	quoted := `"=1+1\u001b[31m\u202e\u009b2J<script>alert(1)</script>"`
	policy := fmt.Sprintf("name = %s\nhouse = %[1]s\n", quoted)
	seen := fmt.Sprintf("by = %s\nglass = %[1]s\n", quoted)
	if err := errors.Join(os.WriteFile(at("p.toml"), []byte(policy), 0o600), os.WriteFile(at("seen.toml"), []byte(seen), 0o600)); err != nil {
		t.Fatal(err)
	}
	told := []string{"--speeds", firedSpeeds, "--lens", hostileName, "--serial", hostileName, "--note", hostileName, "--policy", at("p.toml")}
	var out bytes.Buffer
	for _, args := range [][]string{
		append([]string{"check", clip, "--record", at("r.json"), "--chart", at("c.svg"), "--firings", at("f.svg"), "--labels", at("l.txt")}, told...),
		append([]string{"check", clip, "--csv"}, told...), append([]string{"check", clip, "--json"}, told...), append([]string{"check", clip, "--explain", "1"}, told...),
		{"sound", clip}, {"sound", clip, "--json", "--chart", at("s.svg")},
		{"sheet", at("r.json"), "--out", at("s.html"), "--observed", at("seen.toml")}, {"sheet", at("r.json"), "--listing"},
		{"compare", at("r.json"), at("r.json"), "--chart", at("v.svg")}, {"compare", at("r.json"), at("r.json"), "--json"},
		{"drawer", dir, "--policy", at("p.toml")}, {"drawer", dir, "--policy", at("p.toml"), "--json"},
	} {
		code, said := program(t, &out, args...)
		if code != exitDone {
			t.Errorf("%q: exit code %d: %s", args[0], code, said)
		}
		out.WriteString(said)
	}
	texts := map[string]string{"what is printed": out.String()}
	for _, pattern := range []string{"*.svg", "*.html", "r.json", "l.txt", "report/*.html", "report/*.csv", "report/*.json"} {
		files, _ := filepath.Glob(filepath.Join(dir, filepath.FromSlash(pattern)))
		if len(files) == 0 {
			t.Errorf("no %s was written", pattern)
		}
		for _, f := range files {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			texts[strings.TrimPrefix(f, dir)] = string(b)
		}
	}
	for name, text := range texts {
		if plain := strings.NewReplacer("\n", "", "\t", "", "\u00a0", "", "\u202f", "", "\u2009", "").Replace(text); words.Printable(plain) != plain {
			t.Errorf("%s holds what is not printable", name)
		}
		page := strings.HasSuffix(name, ".svg") || strings.HasSuffix(name, ".html")
		if page && (strings.Contains(text, "<script>alert") || strings.Contains(text, "\"'`")) {
			t.Errorf("%s takes a label for a part of the page", name)
		}
		for line := range strings.Lines(text) {
			if strings.HasSuffix(name, ".csv") && (strings.HasPrefix(line, "=") || strings.Contains(line, ",=") || strings.Contains(line, `"=`)) {
				t.Errorf("%s holds a formula: %s", name, line)
			}
		}
	}
}
