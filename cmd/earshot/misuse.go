package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"earshot/cmd/internal/fault"
)

// usageError is a wrong flag or argument of a command.
type usageError struct {
	command *cobra.Command
	err     error
}

func (e usageError) Error() string { return e.err.Error() }

func (e usageError) Unwrap() error { return e.err }

// misuse makes what is wrong with the flags an error of usage, unless it is a file's.
func misuse(c *cobra.Command, err error) error {
	if fault.Is(err) {
		return err
	}
	return usageError{c, err}
}

// arguments makes the error of a check of arguments one of usage.
func arguments(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			return usageError{c, err}
		}
		return nil
	}
}

// one accepts exactly one argument that is not empty. It says of several that each is to be
// done by itself.
func one(thing, hint, done string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		switch {
		case len(args) == 0 || args[0] == "":
			return fmt.Errorf("no %s was named: %s", thing, hint)
		case len(args) > 1:
			return fmt.Errorf("%d %ss were named, and one is %s at a time", len(args), thing, done)
		}
		return nil
	}
}

func noArgument(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes flags alone, and %q is none: leave it out", c.Name(), args[0])
	}
	return nil
}

// noCommand says of a word in place of a command which it may have been meant for.
func noCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	hint := ""
	if near := c.SuggestionsFor(args[0]); len(near) > 0 {
		hint = "; did you mean " + strings.Join(near, " or ") + "?"
	}
	return fmt.Errorf("there is no command %q%s", args[0], hint)
}

// flagMisuse says in plain words what is wrong with a flag, as one of usage. Flags
// after a word that is no command are not to blame.
func flagMisuse(c *cobra.Command, err error) error {
	if c.HasSubCommands() {
		if err := noCommand(c, c.Flags().Args()); err != nil {
			return usageError{c, err}
		}
	}
	return usageError{c, flagError(c.Flags(), err)}
}

func flagError(known *pflag.FlagSet, err error) error {
	var (
		unknown *pflag.NotExistError
		bare    *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
		broken  *pflag.InvalidSyntaxError
	)
	switch {
	case errors.As(err, &unknown) && unknown.GetSpecifiedShortnames() != "":
		return unknownLetter(unknown)
	case errors.As(err, &unknown):
		return fmt.Errorf("there is no flag --%s%s", unknown.GetSpecifiedName(), nearFlag(known, unknown.GetSpecifiedName()))
	case errors.As(err, &bare):
		return fmt.Errorf("--%s needs a value after it: %s", bare.GetFlag().Name, bare.GetFlag().Usage)
	case errors.As(err, &invalid):
		return fmt.Errorf("--%s %q: %s", invalid.GetFlag().Name, invalid.GetValue(), wanted(invalid.GetFlag()))
	case errors.As(err, &broken):
		return fmt.Errorf("%q is no flag: flags are written as --name or --name value", broken.GetSpecifiedFlag())
	}
	return err
}

// unknownLetter is for a flag with a single hyphen. A word after it is mostly a flag that lacks
// its second hyphen.
func unknownLetter(e *pflag.NotExistError) error {
	word := e.GetSpecifiedShortnames()
	if len(word) > 1 && !strings.HasPrefix(word, "-") {
		return fmt.Errorf("there is no flag -%s; names of more than one letter have two hyphens, and a file whose name begins with a hyphen goes after --", word)
	}
	return fmt.Errorf("there is no flag -%s", word)
}

// nearFlag suggests the flag that most likely was meant, if there is a near one.
func nearFlag(known *pflag.FlagSet, name string) string {
	const farthest = 2 // letters
	best, least := "", farthest+1
	known.VisitAll(func(f *pflag.Flag) {
		if d := editDistance(name, f.Name); !f.Hidden && d < least {
			best, least = f.Name, d
		}
	})
	if best == "" {
		return ""
	}
	return "; did you mean --" + best + "?"
}

// editDistance counts the letters to put in, take out or change to make b of a
// (Levenshtein 1966).
func editDistance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j+1]+1, row[j]+1)
		}
	}
	return row[len(b)]
}

// wanted says what kind of value a flag takes.
func wanted(f *pflag.Flag) string {
	switch f.Value.Type() {
	case "bool":
		return "write --" + f.Name + " alone, without a value"
	case "float64":
		return "not a number; it is the " + f.Usage
	}
	return "not a value for it; it is the " + f.Usage
}

// asksJSON tells whether --json is among the arguments. An error is then printed as JSON too,
// even an error of usage, after which the flags are not parsed.
func asksJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	asked := false
	for _, arg := range args {
		name, value, set := strings.Cut(arg, "=")
		if name != "--json" {
			continue
		}
		on, err := strconv.ParseBool(value)
		asked = !set || on || err != nil
	}
	return asked
}

// oneRecord is for commands that take one record.
func oneRecord() cobra.PositionalArgs {
	return one("record", "name a file that earshot check --record wrote", "drawn")
}
