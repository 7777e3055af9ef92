package main

import (
	"errors"

	"github.com/spf13/cobra"
)

// addHelp adds the commands that the library would add by itself. These refuse unknown
// arguments, as every other command does.
func addHelp(root *cobra.Command) {
	root.SetHelpCommand(newHelp(root))
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		if c.Name() != "completion" {
			continue
		}
		c.Args = arguments(func(*cobra.Command, []string) error {
			return errors.New("name the shell: bash, fish, powershell or zsh")
		})
		c.RunE = func(*cobra.Command, []string) error { return nil } // else the arguments are not looked at
		for _, shell := range c.Commands() {
			shell.Args = arguments(noArgument)
		}
	}
}

func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Help about any command",
		Args: arguments(func(c *cobra.Command, args []string) error {
			if found, rest, err := root.Find(args); err != nil || found == root {
				return noCommand(root, rest)
			}
			return nil
		}),
		RunE: func(_ *cobra.Command, args []string) error {
			found, _, err := root.Find(args)
			if err != nil {
				return err
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}
