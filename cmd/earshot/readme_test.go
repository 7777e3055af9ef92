package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the table and the picture of README.md")

// fence is a block of commands or of text in a page.
var fence = regexp.MustCompile("(?s)```(sh|text)\n(.*?)```\n")

// TestReadmeAndRecordingGuideCanBeFollowed runs every earshot command of the pages and
// holds the text that follows one to what it prints. Figures may move a little with
// every change of the ear; words and layout may not.
func TestReadmeAndRecordingGuideCanBeFollowed(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for _, name := range []string{"README.md", "docs/recording.md"} {
		file := filepath.Join(root, name)
		page, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		followed := follow(t, string(page))
		if *update {
			if err := os.WriteFile(file, []byte(followed), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		digits := regexp.MustCompile(`[0-9a-f]{12}|[0-9]+`)
		if d := cmp.Diff(digits.ReplaceAllString(string(page), "0"), digits.ReplaceAllString(followed, "0")); d != "" {
			t.Errorf("%s (-page +run), \"make docs\" writes it anew:\n%s", name, d)
		}
	}
	if *update {
		picture, err := os.ReadFile("ostrivel-150.png")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(root, "docs", "demo-chart.png"), picture, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// follow runs the commands of a page and returns it with the text after each block of
// commands replaced by what the last of them printed.
func follow(t *testing.T, page string) string {
	t.Helper()
	printed, ran := "", false
	return fence.ReplaceAllStringFunc(page, func(block string) string {
		part := fence.FindStringSubmatch(block)
		if part[1] == "text" {
			if ran {
				ran = false
				return "```text\n" + printed + "```\n"
			}
			return block
		}
		for line := range strings.Lines(part[2]) {
			args := words(strings.TrimSpace(line))
			if args[0] != "earshot" {
				continue
			}
			var out, errs bytes.Buffer
			if code := run(args[1:], strings.NewReader(""), &out, &errs); code != exitDone {
				t.Errorf("%s exits with %d: %s", line, code, errs.String())
			}
			printed, ran = out.String(), true
		}
		return block
	})
}
