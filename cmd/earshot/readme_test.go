package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the table and the picture of README.md")

// fence is a block of commands or of text in a page.
var fence = regexp.MustCompile("(?s)```(sh|text)\n(.*?)```\n")

// TestReadmeAndRecordingGuideCanBeFollowed runs every earshot command of the pages and
// holds the text that follows one, and the picture, to what it makes.
func TestReadmeAndRecordingGuideCanBeFollowed(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	stated := version
	version = "" // the picture is of no one version
	t.Cleanup(func() { version = stated })
	for _, name := range []string{"README.md", "docs/recording.md", "docs/sound.md", "docs/drawer.md"} {
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
		if d := differences(portable(string(page)), portable(followed)); d != "" {
			t.Errorf("%s, \"make docs\" writes it anew:\n%s", name, d)
		}
	}
	made, shown := "ostrivel-150.png", filepath.Join(root, "docs", "demo-chart.png")
	if *update {
		picture, err := os.ReadFile(made)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(shown, picture, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if share := unlikePixels(t, made, shown); share > unlikeShare {
		t.Errorf("%.3f %% of the pixels of docs/demo-chart.png differ from what is drawn now; \"make docs\" draws it anew", 100*share)
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
			args := argumentsOf(strings.TrimSpace(line))
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
