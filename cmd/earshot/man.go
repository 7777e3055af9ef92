package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
)

// newMan writes the man pages from the commands' own help; packagers call it.
func newMan(_ app, root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:    "man DIR",
		Short:  "Write the man pages into a folder",
		Hidden: true,
		Args:   arguments(oneFolder),
		RunE: func(m *cobra.Command, args []string) error {
			if err := os.MkdirAll(args[0], 0o755); err != nil {
				return fault.CannotWrite(args[0], err)
			}
			for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
				if c.Hidden || c.Name() == "help" || c.Name() == "completion" {
					continue
				}
				name := strings.ReplaceAll(c.CommandPath(), " ", "-") + ".1"
				page := manPage(c)
				if err := files.WriteBytes(m.Context(), filepath.Join(args[0], name), page); err != nil {
					return err
				}
			}
			return nil
		},
	}
}

func oneFolder(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return errors.New("name one folder to write the pages into")
	}
	return nil
}

// manPage is the page of one command in roff's man macros.
func manPage(c *cobra.Command) []byte {
	var b bytes.Buffer
	name := strings.ReplaceAll(c.CommandPath(), " ", "-")
	fmt.Fprintf(&b, ".TH %q 1 \"\" \"earshot %s\"\n", strings.ToUpper(name), roff(version))
	section := func(title, text string) {
		if text = strings.TrimSpace(text); text != "" {
			fmt.Fprintf(&b, ".SH %s\n%s\n", title, roff(text))
		}
	}
	section("NAME", name+" - "+c.Short)
	section("SYNOPSIS", c.UseLine())
	section("DESCRIPTION", c.Long)
	if c.HasAvailableSubCommands() {
		b.WriteString(".SH COMMANDS\n")
		for _, sub := range c.Commands() {
			if sub.IsAvailableCommand() {
				fmt.Fprintf(&b, ".TP\n.B %s\n%s\n", roff(sub.Name()), roff(sub.Short))
			}
		}
	}
	if c.LocalFlags().HasAvailableFlags() {
		b.WriteString(".SH OPTIONS\n")
		c.LocalFlags().VisitAll(func(f *pflag.Flag) { fmt.Fprintf(&b, ".TP\n.B %s\n%s\n", roff("--"+f.Name), roff(f.Usage)) })
	}
	if c.Example != "" {
		fmt.Fprintf(&b, ".SH EXAMPLES\n.nf\n%s\n.fi\n", roff(c.Example))
	}
	return b.Bytes()
}

// roff escapes text: backslashes, hyphens, and points or quotes that begin a line.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(s)
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
		if l == "" {
			lines[i] = ".PP"
		}
	}
	return strings.Join(lines, "\n")
}
