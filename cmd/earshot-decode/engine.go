package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"

	"codeberg.org/gruf/go-ffmpreg/embed"
	"codeberg.org/gruf/go-ffmpreg/wasm"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/experimental"
)

// memoryPages bounds the sandbox's memory, in pages of 64 KiB: 128 MiB, which with the
// program itself stay below 256. An hour of a film's sound takes 100 MiB, most of it for
// the table of its packets.
const memoryPages = 128 << 20 >> 16

// engine is ffmpeg made ready to run in its sandbox.
type engine struct {
	runtime wazero.Runtime
	module  wazero.CompiledModule
}

// noteReady is said before ffmpeg is made ready anew.
const noteReady = "note: making ready to read this format, some 10 s; later it goes faster"

// newEngine makes ffmpeg ready. The machine code is kept in the cache folder. Compiling takes
// some 10 s, which is said to notes before; reading it from the cache takes a third of a
// second. A broken cache is deleted and made again. If the cache can't be written, it is done
// without.
func newEngine(ctx context.Context, cache string, notes io.Writer) (*engine, error) {
	ctx = experimental.WithCompilationWorkers(ctx, min(4, runtime.NumCPU()))
	if filled(cache) {
		if e, err := compile(ctx, cache); err == nil {
			return e, nil
		}
		os.RemoveAll(cache)
	}
	fmt.Fprintln(notes, noteReady)
	if cache != "" {
		if e, err := compile(ctx, cache); err == nil {
			return e, nil
		}
	}
	return compile(ctx, "")
}

// filled tells whether the cache holds anything: it keeps its files one folder down.
func filled(cache string) bool {
	files, err := filepath.Glob(filepath.Join(cache, "*", "*"))
	return cache != "" && err == nil && len(files) > 0
}

// compile makes ffmpeg ready with the cache folder, or without one if it is empty.
func compile(ctx context.Context, cache string) (*engine, error) {
	// All of it is reserved at once: the system gives what is touched, and none is copied
	// as it grows, which took twice as much.
	config := wazero.NewRuntimeConfig().WithMemoryLimitPages(memoryPages).WithMemoryCapacityFromMax(true)
	if cache != "" {
		if err := os.MkdirAll(cache, 0o700); err != nil {
			return nil, err
		}
		kept, err := wazero.NewCompilationCacheWithDir(cache)
		if err != nil {
			return nil, err
		}
		config = config.WithCompilationCache(kept)
	}
	r, err := wasm.NewRuntime(ctx, config)
	if err != nil {
		return nil, err
	}
	m, err := r.CompileModule(ctx, embed.B())
	if err != nil {
		return nil, errors.Join(err, r.Close(ctx))
	}
	return &engine{r, m}, nil
}

// cacheFolder is where the machine code is kept; empty where the user has none.
func cacheFolder() string {
	dir, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "earshot", "decoder")
}

// run runs one of ffmpeg's programs on the clip and returns its exit code. It sees that
// one file and no environment; there is no network to see.
func (e *engine) run(ctx context.Context, program string, clip oneFile, stdout, stderr io.Writer, args ...string) (uint32, error) {
	return wasm.Run(ctx, e.runtime, e.module, wasm.Args{
		Name: program, Args: args, Stdout: stdout, Stderr: stderr,
		Config: func(c wazero.ModuleConfig) wazero.ModuleConfig {
			return c.WithFSConfig(wazero.NewFSConfig().WithFSMount(clip, "/"))
		},
	})
}
