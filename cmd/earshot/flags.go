package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"earshot/report/chart/paper"
	"earshot/shutter"
)

// Flags that several commands take. Their errors are of usage.

// kindFlag says how a shutter is built.
type kindFlag struct{ kindName string }

func (f *kindFlag) define(c *cobra.Command) {
	c.Flags().StringVar(&f.kindName, "shutter", string(shutter.Leaf), "how the shutter is built: leaf or focal-plane")
}

func (f kindFlag) read() (shutter.Kind, error) {
	kind, err := shutter.ParseKind(f.kindName)
	if err != nil {
		return kind, fmt.Errorf("--shutter: %w", err)
	}
	return kind, nil
}

// dateFlag is the date of what is made.
type dateFlag struct{ date string }

func (f *dateFlag) define(c *cobra.Command) {
	c.Flags().StringVar(&f.date, "now", "", "date of the record instead of the present time, as in 2026-11-25 or 2026-11-25T14:30:00+01:00")
}

// read is the date told, the present time if none was.
func (f dateFlag) read() (time.Time, error) {
	if f.date == "" {
		return time.Now(), nil
	}
	for _, layout := range []string{time.RFC3339, time.DateOnly} {
		if t, err := time.Parse(layout, f.date); err == nil && t.Year() >= 1800 {
			return t, nil
		}
	}
	return time.Time{}, fmt.Errorf("--now %q: write it as 2026-11-25 or 2026-11-25T14:30:00+01:00", f.date)
}

// checkNamed refuses a flag that was given with no file's name.
func checkNamed(c *cobra.Command, flag string) error {
	if f := c.Flag(flag); f.Changed && f.Value.String() == "" {
		return fmt.Errorf("--%s: no file was named", flag)
	}
	return nil
}

// pictureFormat is the format of the picture that a flag names, none where it names none.
func pictureFormat(c *cobra.Command, flag string, allowed ...paper.Format) (paper.Format, error) {
	file := c.Flag(flag).Value.String()
	if err := checkNamed(c, flag); err != nil || file == "" {
		return "", err
	}
	f, err := paper.FormatOf(file, allowed...)
	if err != nil {
		return "", fmt.Errorf("--%s %s: %w", flag, file, err)
	}
	return f, nil
}
