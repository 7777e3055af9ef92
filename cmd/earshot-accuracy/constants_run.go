package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// trial is what became of one constant changed: figures, or why there are none.
type trial struct {
	figures
	failed string
}

// changed is a constant with what halving and doubling it did.
type changed struct {
	constant
	half, twice trial
}

// longestRun is what one changed program may take; those in order take a tenth.
const longestRun = 2 * time.Minute

// workbench builds this program with one constant changed and runs it, in a folder of
// its own.
type workbench struct {
	dir  string
	seed uint64
}

// try runs the program with c so many times what it is.
func (b *workbench) try(c constant, by float64) (trial, error) {
	var failed error
	for _, value := range c.times(by) {
		if failed = b.build(c, value); failed == nil {
			return b.run(), nil
		}
		var refused *exec.ExitError
		if !errors.As(failed, &refused) {
			return trial{}, failed
		}
	}
	return trial{failed: "does not build"}, nil
}

// build makes the program from the sources with the value of c replaced. The sources
// stay as they are: the compiler is told to read another file in the place of one.
func (b *workbench) build(c constant, value string) error {
	source, err := os.ReadFile(c.file)
	if err != nil {
		return err
	}
	path, err := filepath.Abs(c.file)
	if err != nil {
		return err
	}
	copied := filepath.Join(b.dir, "changed.go")
	if err := os.WriteFile(copied, []byte(string(source[:c.from])+value+string(source[c.to:])), 0o644); err != nil {
		return err
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {path: copied}})
	if err != nil {
		return err
	}
	told := filepath.Join(b.dir, "overlay.json")
	if err := os.WriteFile(told, overlay, 0o644); err != nil {
		return err
	}
	return exec.Command("go", "build", "-p", "1", "-overlay", told, "-o", b.program(), "./cmd/earshot-accuracy").Run()
}

func (b *workbench) program() string { return filepath.Join(b.dir, "changed.exe") }

// run runs the program that was built.
func (b *workbench) run() trial {
	ctx, stop := context.WithTimeout(context.Background(), longestRun)
	defer stop()
	cmd := exec.CommandContext(ctx, b.program(), "-few", "-seed", fmt.Sprint(b.seed))
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	out, err := cmd.Output()
	switch {
	case ctx.Err() != nil:
		return trial{failed: "takes too long"}
	case err != nil:
		return trial{failed: "fails"}
	}
	var t trial
	if err := json.Unmarshal(out, &t.figures); err != nil {
		return trial{failed: "fails"}
	}
	return t
}

// changeConstants halves and doubles one constant after the other, as many as there is
// time for, and writes the page anew after each.
func changeConstants(o options) (err error) {
	var all []constant
	for _, file := range hearingFiles() {
		some, err := findConstants(file)
		if err != nil {
			return err
		}
		all = append(all, some...)
	}
	p := constantsPage{seed: o.seed, sources: readSources(), all: all}
	if p.asIs, err = measureFew(o.seed); err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "earshot-constants-")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	benches := [2]workbench{{filepath.Join(dir, "half"), o.seed}, {filepath.Join(dir, "twice"), o.seed}}
	for _, b := range benches {
		if err := os.Mkdir(b.dir, 0o700); err != nil {
			return err
		}
	}
	for began, i := time.Now(), 0; i < len(all) && (o.limit == 0 || time.Since(began) < o.limit); i++ {
		if p.sources[all[i].key()].formula() {
			continue
		}
		c := changed{constant: all[i]}
		results := [2]*trial{&c.half, &c.twice}
		if err := inParallel(len(benches), func(k int) (err error) {
			*results[k], err = benches[k].try(c.constant, []float64{0.5, 2}[k])
			return err
		}); err != nil {
			return err
		}
		p.changed = append(p.changed, c)
		if err := os.WriteFile(o.constants, []byte(p.String()), 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(o.constants, []byte(p.String()), 0o644)
}
