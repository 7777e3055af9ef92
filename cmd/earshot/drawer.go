package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/folder"
	"earshot/report"
	"earshot/report/drawer"
	"earshot/report/words"
	"earshot/shutter/judge"
)

const drawerLong = `drawer checks every lens of a folder, several at once: a folder of clips, or of one
folder a lens. It prints a table, what needs attention first, and writes into DIR/report
a record, a chart and a sheet of each lens, a summary (summary.csv) and a page of all of them
(index.html), which any browser shows.

A list beside the clips, drawer.csv, names the lenses and tells their speeds. Its first
line names the columns: lens,serial,clip,speeds,shutter,rested,temperature_c,note. A
clip may be a file, or a folder with all the clips of a lens; a lens may have several
lines, and a column sitting tells two sittings with one lens apart. Further columns are
kept in the summary. Without a list a clip's name is its lens and may carry its speed.

Run again, it checks only what has changed since. Interrupted, it keeps what is done.`

const drawerExample = `  earshot drawer demo
  earshot drawer demo --policy negative-film --json`

// drawerOptions are what drawer was asked for.
type drawerOptions struct {
	dir                   string
	policy                judge.Policy
	now                   time.Time
	json, strict, verbose bool
}

func newDrawer(a app) *cobra.Command {
	var (
		o    drawerOptions
		p    policyFlags
		date dateFlag
	)
	c := &cobra.Command{
		Use:     "drawer DIR",
		Short:   "Judge every lens of a folder, with a page of all of them",
		Long:    drawerLong,
		Example: drawerExample,
		Args:    arguments(one("folder", "name the one that holds the clips", "checked")),
	}
	s := c.Flags()
	p.define(c)
	date.define(c)
	s.BoolVar(&o.json, "json", false, "print the summary as JSON")
	s.BoolVar(&o.strict, "strict", false, "exit with 4 when service is advised for a lens, else with 5 when one was not judged")
	s.BoolVar(&o.verbose, "verbose", false, "say of each lens when it is done, instead of a progress bar")
	c.RunE = func(c *cobra.Command, args []string) (err error) {
		o.dir = args[0]
		if o.policy, err = p.read(); err != nil {
			return misuse(c, err)
		}
		if o.now, err = date.read(); err != nil {
			return misuse(c, err)
		}
		return a.drawer(c.Context(), o)
	}
	return c
}

// drawer checks the lenses of a folder and writes its report.
func (a app) drawer(ctx context.Context, o drawerOptions) error {
	found, err := folder.Find(ctx, o.dir)
	if err != nil {
		return a.sayAll(err, o.json)
	}
	work, err := found.Begin(folder.Settings{Policy: o.policy, Now: o.now, Version: version, Notes: a.stderr})
	if err != nil {
		return err
	}
	defer work.End()
	a.watch(work, o.verbose, func(w folder.Watcher) { work.Check(ctx, w) })
	if ctx.Err() != nil {
		done, all := work.Done()
		fmt.Fprintf(a.stderr, "earshot: %d of %d lenses are done and kept in %s; run it again for the rest\n", done, all, words.Printable(work.Folder()))
		return ctx.Err()
	}
	s, err := work.Write(ctx)
	if err != nil {
		return err
	}
	if err := a.printDrawer(s, o, work.Folder()); err != nil {
		return err
	}
	return a.concludeDrawer(s, o)
}

// watch does work under a bar that shows how far it is, or says of each lens when it is
// done.
func (a app) watch(work *folder.Work, verbose bool, do func(folder.Watcher)) {
	show := a.stderr
	if verbose {
		show = io.Discard
	}
	_, all := work.Done()
	bar := newProgress(show, all)
	defer bar.close()
	if verbose {
		bar.each = a.stderr
	}
	do(bar)
}

func (a app) printDrawer(s drawer.Summary, o drawerOptions, out string) error {
	if o.json {
		return s.WriteJSON(a.stdout)
	}
	if err := s.WriteText(a.stdout); err != nil {
		return err
	}
	_, err := fmt.Fprintf(a.stdout, "To look at: %s\n", words.Printable(filepath.Join(out, "index.html")))
	return err
}

// concludeDrawer says what is doubtful and what could not be checked, and returns the
// exit status.
func (a app) concludeDrawer(s drawer.Summary, o drawerOptions) error {
	for _, note := range s.Notes {
		fmt.Fprintf(a.stderr, "earshot: warning: %s\n", words.Printable(note))
	}
	for _, e := range s.Entries {
		if e.Record != nil {
			a.warn(*e.Record)
		}
	}
	missed := 0
	for _, e := range s.Entries {
		for _, f := range e.Failures() {
			missed++
			f.File = filepath.Join(o.dir, f.File)
			a.complain(f)
		}
	}
	switch {
	case s.Count(drawer.NotChecked) == len(s.Entries):
		return exitStatus(exitFailed)
	case missed > 0:
		return exitStatus(exitSome)
	case o.strict && s.Count(judge.ServiceAdvised.String()) > 0:
		return exitStatus(exitService)
	case o.strict && s.Count(judge.NotJudged.String()) > 0:
		return exitStatus(exitNotJudged)
	}
	return nil
}

// sayAll prints problems, a line each, and returns an error with their number. If JSON was
// asked for, the error holds them all instead.
func (a app) sayAll(err error, json bool) error {
	var all folder.Problems
	if !errors.As(err, &all) {
		return err
	}
	message := "nothing was checked"
	if json {
		message += ": " + all.Error()
	} else {
		for _, f := range all {
			a.complain(f)
		}
	}
	hint := fmt.Sprintf("put these %d things right and run it again", len(all))
	if len(all) == 1 {
		hint = "put this right and run it again"
	}
	return fault.New(report.Failure{Code: all[0].Code, Message: message, Hint: hint}, err)
}
