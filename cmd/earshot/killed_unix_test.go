//go:build unix

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"earshot/cmd/internal/folder"
)

// A kill at any moment leaves every file under its name whole, as an undisturbed run
// writes it, and no lens that is done is checked anew.
func TestADrawerKilledAtAnyMomentLosesNothing(t *testing.T) {
	lenses, moments := 4, 24
	if testing.Short() {
		lenses, moments = 2, 6
	}
	dir := drawerOf(t, lenses)
	out := filepath.Join(dir, folder.ReportFolder)
	args := []string{"drawer", dir, "--now", "2026-11-25", "--verbose"}
	start := time.Now()
	if code, said := program(t, io.Discard, args...); code != exitDone {
		t.Fatal(said)
	}
	took, whole := time.Since(start), contents(t, out)
	kills, kept := 0, map[string]string{}
	clear := func() {
		if err := os.RemoveAll(out); err != nil {
			t.Fatal(err)
		}
		kept = map[string]string{}
	}
	clear()
	for i := range moments {
		cmd := exec.Command("earshot", args...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(took * time.Duration(i%12) / 12)
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			kills++
		}
		if _, err := os.Stat(out); err != nil {
			continue // killed before it began
		}
		now := contents(t, out)
		for name, b := range now {
			if !strings.HasPrefix(name, ".earshot-") && b != whole[name] {
				t.Errorf("kill %d: %s is other than an undisturbed run writes it", i, name)
			}
		}
		for name := range kept {
			if now[name] == "" {
				t.Errorf("kill %d: %s is gone", i, name)
			}
		}
		if kept = now; now["index.html"] != "" {
			clear()
		}
		for name := range kept {
			if strings.HasPrefix(name, ".") {
				delete(kept, name)
			}
		}
	}
	code, said := program(t, io.Discard, args...)
	if code != exitDone || kills == 0 {
		t.Errorf("exit code %d after %d kills: %s", code, kills, said)
	}
	for name := range kept {
		lens, record := strings.CutSuffix(name, ".json")
		if record && !strings.Contains(said, strings.ReplaceAll(lens, "-", " ")+": ") {
			t.Errorf("nothing is said of %s: %s", lens, said)
		}
		if record && !strings.Contains(said, "(unchanged)") {
			t.Errorf("%s was done and is checked anew: %s", lens, said)
		}
	}
	last := contents(t, out)
	for name := range whole {
		if last[name] != whole[name] {
			t.Errorf("in the end %s is other than after an undisturbed run", name)
		}
	}
	if len(last) != len(whole) {
		t.Errorf("in the end there are %d files, want %d", len(last), len(whole))
	}
}
