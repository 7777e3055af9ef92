package main

import (
	"context"
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/dsp/synth"
	"earshot/dsp/wavfile"
	"earshot/shutter/hear/recording"
)

// demoSeed makes the demo the same for everyone.
const demoSeed = 1

func newDemo(a app) *cobra.Command {
	return &cobra.Command{
		Use:   "demo DIR [CLIP...]",
		Short: "Write a drawer of invented lenses to try everything with",
		Long: `demo writes recordings of the lenses of an invented shop into a folder, with a list of
them (drawer.csv) and what really happened in each recording (truth.csv), and prints a
command to check each with; earshot drawer checks all of them. One lens comes again
after service. Named clips alone are written where any are named.`,
		Example: "  earshot demo demo\n  earshot demo demo corvane-105.wav",
		Args:    arguments(someFolder),
		RunE: func(c *cobra.Command, args []string) error {
			return a.demo(c.Context(), args[0], args[1:])
		},
	}
}

func someFolder(_ *cobra.Command, args []string) error {
	if len(args) == 0 || args[0] == "" {
		return errors.New("name a folder to write into")
	}
	for _, name := range args[1:] {
		if !slices.ContainsFunc(synth.Demo(demoSeed), func(l synth.Lens) bool { return l.File == name }) {
			return fmt.Errorf("the demo has no clip %q", name)
		}
	}
	return nil
}

func (a app) demo(ctx context.Context, dir string, only []string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fault.CannotWrite(dir, err)
	}
	drawer := [][]string{{"lens", "serial", "clip", "speeds", "shutter", "rested", "temperature_c", "note", "sitting"}}
	truth := [][]string{{"clip", "firing", "marked", "nominal_s", "open_s", "close_s", "duration_s", "stop_to_stop_s", "fault"}}
	for _, l := range synth.Demo(demoSeed) {
		if len(only) > 0 && !slices.Contains(only, l.File) {
			continue
		}
		c, err := l.Recording.Clip()
		if err != nil {
			return fmt.Errorf("demo clip %s: %w", l.File, err)
		}
		path := filepath.Join(dir, l.File)
		if err := writeDemoClip(ctx, path, c); err != nil {
			return err
		}
		drawer = append(drawer, []string{l.Name, l.Serial, l.File, l.Speeds, "leaf", l.Rested, "", l.Note, l.Sitting})
		truth = append(truth, truthRows(l.File, c.Truth)...)
		fmt.Fprintf(a.stdout, "earshot check %s --lens %q --serial %s --speeds %q\n", path, l.Name, l.Serial, l.Speeds)
	}
	return errors.Join(writeTable(ctx, filepath.Join(dir, "drawer.csv"), drawer), writeTable(ctx, filepath.Join(dir, "truth.csv"), truth))
}

// asFromThePhone are the recordings that the demo has coded as a phone codes them.
//
//go:embed demodata/*.m4a
var asFromThePhone embed.FS

// writeDemoClip writes a clip as WAV, or as it was coded once.
func writeDemoClip(ctx context.Context, path string, c *synth.Clip) error {
	if filepath.Ext(path) == ".wav" {
		return files.Write(ctx, path, func(f *os.File) error { return wavfile.Copy(f, recording.Until(ctx, c)) })
	}
	coded, err := asFromThePhone.ReadFile("demodata/" + filepath.Base(path))
	if err != nil {
		return fmt.Errorf("demo clip %s: %w", filepath.Base(path), err)
	}
	return files.WriteBytes(ctx, path, coded)
}

// truthRows says what really happened, firing by firing: when the blades began to open and to
// close, the time between, the same from end stop to end stop, and the faults of this firing
// alone.
func truthRows(file string, t synth.Truth) [][]string {
	var rows [][]string
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', 6, 64) }
	for i, f := range t.Firings {
		closing, duration, between, faults := "", "", "", ""
		if f.Closes {
			closing, duration, between = number(f.Close.Start), number(f.Duration()), number(f.StopToStop())
		}
		for _, s := range f.Symptoms {
			faults = strings.TrimPrefix(faults+"; "+string(s), "; ")
		}
		rows = append(rows, []string{file, strconv.Itoa(i + 1), f.Label + " s", number(f.Nominal), number(f.Open.Start), closing, duration, between, faults})
	}
	return rows
}

func writeTable(ctx context.Context, path string, rows [][]string) error {
	return files.Write(ctx, path, func(f *os.File) error { return csv.NewWriter(f).WriteAll(rows) })
}
