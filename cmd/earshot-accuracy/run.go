package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	whole "earshot/shutter/hear/scene"
)

// options are the flags.
type options struct {
	seed      uint64
	out       string // where the page goes; "": nowhere
	condition string // only this one, told firing by firing
	wav       string // folder for the clips in which something went wrong
	constants string // the page of constants, which is all that is done; "": not asked for
	symptoms  string // the page of symptoms, which is all that is done; "": not asked for
	limit     time.Duration
	few       bool   // hear a few clips and write only their figures
	sources   string // the page of what was held against the outside, which is all that is done; "": not asked for
	needAll   bool   // with sources: none may be left out
	generator string // only recordings by this one, told one by one
	each      int    // recordings of each kind by generators; 0: as many as the work asks for
	train     string // where the fitted weights go, which is all that is done; "": not asked for
	without   string // the generator left out of training; "": none
	weights   string // the page of the weights; "": nowhere
}

// Exit codes.
const (
	exitMet    = 0
	exitMissed = 1 // a target was missed, or the run could not be done
	exitUsage  = 2
)

func run(args []string, stdout, stderr io.Writer) int {
	opts, err := parse(args, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return exitMet
	case err != nil:
		return exitUsage
	}
	met, err := measure(opts, stdout)
	if err != nil {
		fmt.Fprintln(stderr, "earshot-accuracy:", err)
		return exitMissed
	}
	if !met {
		return exitMissed
	}
	return exitMet
}

func parse(args []string, stderr io.Writer) (options, error) {
	var o options
	f := flag.NewFlagSet("earshot-accuracy", flag.ContinueOnError)
	f.SetOutput(stderr)
	f.Uint64Var(&o.seed, "seed", 1, "`seed` of all that happens by chance")
	f.StringVar(&o.out, "out", "docs/accuracy.md", "`file` the page is written to; none if empty")
	f.StringVar(&o.condition, "condition", "", "measure only the conditions whose `name` contains this, and list what went wrong; writes no page")
	f.StringVar(&o.wav, "wav", "", "`folder` for the clips in which something went wrong, with a label track each")
	f.StringVar(&o.constants, "constants", "", "halve and double every constant of hearing, and write what becomes of a few clips to this `file`; nothing else")
	f.StringVar(&o.sources, "sources", "", "run the tests that hold figures against the outside, and write what agreed to this `file`; nothing else")
	f.BoolVar(&o.needAll, "need-all", false, "with -sources: fail where one is left out for want of what it needs")
	f.StringVar(&o.symptoms, "symptoms", "", "make ailing shutters and write what they are found to have to this `file`; nothing else")
	f.StringVar(&o.generator, "generator", "", "measure only recordings by the generator of this `name`, and list what went wrong; writes no page")
	f.IntVar(&o.each, "seeds", 0, "make so many recordings of each kind by the generators; 0: one to measure, three to train")
	f.StringVar(&o.train, "train", "", "fit the weights by which clips are explained and write them to this `file`; nothing else")
	f.StringVar(&o.without, "without", "", "train without the generator of this `name`, write nothing, and report on that one")
	f.StringVar(&o.weights, "weights", "", "write the page of the weights to this `file`: of those that -train fits, else of the program's; nothing else")
	f.DurationVar(&o.limit, "limit", 0, "begin with no other constant after this `time`; 0: do all")
	f.BoolVar(&o.few, "few", false, "hear a few clips and write their figures as JSON; nothing else")
	if err := f.Parse(args); err != nil {
		return o, err
	}
	if f.NArg() > 0 {
		err := fmt.Errorf("unexpected argument %q", f.Arg(0))
		fmt.Fprintln(stderr, "earshot-accuracy:", err)
		f.Usage()
		return o, err
	}
	return o, nil
}

// measure does all the work and tells whether every target was met.
func measure(o options, stdout io.Writer) (met bool, err error) {
	switch {
	case o.train != "" || o.without != "":
		return true, train(o, stdout)
	case o.weights != "":
		t := whole.Fitted()
		return true, writeWeights(o.weights, &t)
	case o.few:
		return true, writeFew(stdout, o.seed)
	case o.sources != "":
		return true, writeSources(o.sources, o.needAll)
	case o.constants != "":
		return true, changeConstants(o)
	case o.symptoms != "":
		return writeSymptoms(o, stdout)
	case o.generator != "":
		return true, writeGenerator(o, stdout)
	}
	chosen, err := choose(conditions(), o.condition)
	if err != nil {
		return false, err
	}
	outcomes, err := hearAll(chosen, o.seed)
	if err != nil {
		return false, err
	}
	if err := compare(outcomes, yardsticks()); err != nil {
		return false, err
	}
	if o.wav != "" {
		if err := writeClips(o.wav, outcomes); err != nil {
			return false, err
		}
	}
	r := newResults(chosen, outcomes)
	if o.condition != "" {
		for _, out := range outcomes {
			io.WriteString(stdout, out.explain())
		}
		io.WriteString(stdout, r.tables())
		return true, nil
	}
	if r.generators, err = measureGenerators(outcomes, o.seed, max(o.each, 1)); err != nil {
		return false, err
	}
	page := r.page(o.seed)
	if _, err := io.WriteString(stdout, page); err != nil {
		return false, err
	}
	if o.out != "" {
		if err := os.WriteFile(filepath.Clean(o.out), []byte(page), 0o644); err != nil {
			return false, fmt.Errorf("%w: run it from the top of the project, or say -out", err)
		}
	}
	return r.met(), nil
}

// choose returns the conditions whose name contains part.
func choose(all []condition, part string) ([]condition, error) {
	some := slices.DeleteFunc(slices.Clone(all), func(c condition) bool { return !strings.Contains(c.name, part) })
	if len(some) > 0 {
		return some, nil
	}
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = c.name
	}
	return nil, fmt.Errorf("no condition's name contains %q; there are:\n  %s", part, strings.Join(names, "\n  "))
}
