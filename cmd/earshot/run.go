package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/report/write"
)

// version is set by the build: -ldflags "-X main.version=v1.2.3".
var version = "devel"

// Exit codes.
const (
	exitDone        = 0
	exitFailed      = 1
	exitMisused     = 2
	exitSome        = 3   // some inputs could not be checked, the rest were
	exitService     = 4   // with --strict: service advised
	exitNotJudged   = 5   // with --strict: not judged
	exitInterrupted = 130 // as a shell reports SIGINT
)

// app is what every command writes to and reads from.
type app struct {
	stdin          io.Reader
	stdout, stderr io.Writer
}

// grace is how long a command may take to end by itself once it is interrupted. All work
// looks for that now and then, but a large picture may take longer.
const grace = 300 * time.Millisecond

// run runs the program and returns its exit code. After SIGINT or SIGTERM it returns soon,
// even where the command goes on: the program is to exit then.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	answer := &written{ctx: ctx, w: stdout, closed: asksJSON(args) && isClosed(stdout)}
	root := newRoot(app{stdin, answer, stderr})
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(answer)
	root.SetErr(stderr)
	a := app{stdin, stdout, stderr}
	ended, err := endsSoon(ctx, root.ExecuteContext)
	if !ended {
		files.Abandon()
		return a.conclude(ctx.Err(), false) // what goes on may be writing an answer
	}
	if answer.err != nil {
		hint := "see that the disk has room"
		if errors.Is(answer.err, errClosed) {
			hint = "let it go to a file or a pipe"
		}
		err = fault.File("cannot-write", "", "the answer cannot be written", answer.err, hint)
	}
	return a.conclude(err, asksJSON(args))
}

// endsSoon does something and returns its error. It does not wait for longer than the grace
// after ctx is done; ended is false then, and the work goes on.
func endsSoon(ctx context.Context, do func(context.Context) error) (ended bool, err error) {
	result := make(chan error, 1)
	go func() { result <- do(ctx) }()
	select {
	case err := <-result:
		return true, err
	case <-ctx.Done():
	}
	select {
	case err := <-result:
		return true, err
	case <-time.After(grace):
		return false, nil
	}
}

// written is an answer that is written to w. It keeps the first error of writing, since not
// every caller checks it, as for a help text on a full disk. Once ctx is done, nothing more is
// written.
type written struct {
	ctx    context.Context
	w      io.Writer
	closed bool // takes nothing
	err    error
}

// errClosed is for an answer that no one would get.
var errClosed = errors.New("standard output is closed")

// isClosed tells whether this process was started with its standard output closed. The null
// device is then open in its place, for reading and writing. After a redirection to the null
// device by a shell it is open for writing only, and reading fails.
func isClosed(stdout io.Writer) bool {
	f, ok := stdout.(*os.File)
	if !ok {
		return false
	}
	is, err := f.Stat()
	if err != nil {
		return true
	}
	null, err := os.Stat(os.DevNull)
	if err != nil || !os.SameFile(is, null) {
		return false
	}
	_, err = f.Read(make([]byte, 1))
	return errors.Is(err, io.EOF)
}

func (w *written) Write(p []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	if w.closed {
		w.err = errClosed
		return 0, w.err
	}
	n, err := w.w.Write(p)
	w.err = cmp.Or(w.err, err)
	return n, err
}

func newRoot(a app) *cobra.Command {
	root := &cobra.Command{
		Use:   "earshot",
		Short: "Time a leaf shutter by the sound of it",
		Long: `earshot takes a recording of a mechanical leaf shutter being fired and says how
long it stayed open, how far that is from the marked speed, whether it repeats, and
whether it wants service. It works offline; nothing leaves the machine.

Exit codes: 0 done, whatever the verdict; 1 could not be done; 2 misused; 3 some
clips could not be checked and the rest were; 130 interrupted; with --strict, 4
when service is advised and 5 when nothing could be judged.`,
		Example:       "  earshot demo demo\n  earshot check demo/corvane-105.wav --speeds \"1x3 1/2x3 1/4x3 1/8x3 1/15x3 1/30x5\"",
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          arguments(noCommand),
		RunE: func(c *cobra.Command, _ []string) error {
			return usageError{c, errors.New("no command was given: check judges a lens, demo writes recordings to try it with")}
		},
	}
	root.SetVersionTemplate("earshot {{.Version}}\n")
	root.SuggestionsMinimumDistance = 2
	root.SetFlagErrorFunc(flagMisuse)
	root.AddCommand(newCheck(a), newDrawer(a), newChart(a), newSheet(a), newCompare(a), newSound(a), newClock(a), newSpeeds(a), newDemo(a), newMan(a, root))
	addHelp(root)
	return root
}

// conclude says what went wrong, on stdout too where JSON was asked for, and returns
// the exit code.
func (a app) conclude(err error, json bool) int {
	var (
		status exitStatus
		usage  usageError
	)
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &status):
		return int(status)
	}
	f := failureOf(err)
	if json {
		write.Failure(a.stdout, f)
	}
	a.complain(f)
	switch {
	case errors.As(err, &usage):
		fmt.Fprintf(a.stderr, "\n%s", usage.command.UsageString())
		return exitMisused
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	}
	return exitFailed
}
