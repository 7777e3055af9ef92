package main

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestSandboxHoldsTheOneFileAndNothingElse(t *testing.T) {
	box := oneFile{strings.NewReader("hello"), 5}
	b, err := fs.ReadFile(box, clipName)
	if string(b) != "hello" || err != nil {
		t.Errorf("%q, %v", b, err)
	}
	for _, name := range []string{"other", "../clip", "/clip", "/etc/passwd", "clip/..", "clip/x", ""} {
		if _, err := box.Open(name); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("open %q: %v, want that there is no such file", name, err)
		}
	}
	if list, err := fs.ReadDir(box, "."); len(list) > 0 || err != nil {
		t.Errorf("the folder lists %v, %v", list, err)
	}
}

// A list of other files is a format of ffmpeg's own, and the widest way out that a clip
// has.
func TestAClipCanNotHaveOtherFilesOrTheNetworkRead(t *testing.T) {
	ctx := t.Context()
	e, err := newEngine(ctx, cacheFolder(), new(bytes.Buffer))
	if err != nil {
		t.Fatal(err)
	}
	secret := save(t, "secret.wav", []byte("not yours"))
	list := "ffconcat version 1.0\nfile '" + secret + "'\n"
	box := oneFile{strings.NewReader(list), int64(len(list))}
	for name, args := range map[string][]string{
		"a list of files":     {"-f", "concat", "-safe", "0", "-i", "/" + clipName},
		"another file":        {"-f", "wav", "-i", secret},
		"a file outside":      {"-f", "wav", "-i", "/../" + secret},
		"the network":         {"-f", "wav", "-i", "http://127.0.0.1/clip.wav"},
		"the network, by TCP": {"-f", "wav", "-i", "tcp://127.0.0.1:80"},
	} {
		var out, said bytes.Buffer
		rc, err := e.run(ctx, "ffmpeg", box, &out, &said, append(args, "-f", "wav", "pipe:1")...)
		if rc == 0 && err == nil {
			t.Errorf("%s: it succeeds:\n%s", name, said.String())
		}
		if strings.Contains(said.String()+out.String(), "not yours") {
			t.Errorf("%s: what another file holds comes out", name)
		}
	}
}

// run runs the built decoder on a clip, with its cache in a folder.
func run(t *testing.T, cache string, clip []byte) (notes string, wav int) {
	t.Helper()
	in, err := os.Open(save(t, "clip", clip))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	var out, said bytes.Buffer
	cmd := exec.Command("earshot-decode")
	cmd.Env = append(os.Environ(), "XDG_CACHE_HOME="+cache, "HOME="+cache, "LocalAppData="+cache)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = in, &out, &said
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %s", err, said.String())
	}
	return said.String(), out.Len()
}

func TestABrokenCacheIsMadeAgainAndOneThatCanNotBeIsDoneWithout(t *testing.T) {
	if testing.Short() {
		t.Skip("it makes ffmpeg ready twice, some 10 s each")
	}
	withDecoder(t)
	file := amr(10)
	if _, err := newEngine(t.Context(), cacheFolder(), new(bytes.Buffer)); err != nil { // fills it
		t.Fatal(err)
	}
	good, err := filepath.Glob(filepath.Join(cacheFolder(), "*", "*"))
	if err != nil || len(good) == 0 {
		t.Fatalf("no cache in %s: %v", cacheFolder(), err)
	}
	dir := t.TempDir()
	t.Setenv("XDG_CACHE_HOME", dir)
	t.Setenv("HOME", dir)
	for _, path := range good {
		broken := filepath.Join(cacheFolder(), filepath.Base(filepath.Dir(path)), filepath.Base(path))
		if err := errors.Join(os.MkdirAll(filepath.Dir(broken), 0o700), os.WriteFile(broken, load(t, path)[:100000], 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	for i, noted := range []bool{true, false} {
		if notes, wav := run(t, dir, file); strings.Contains(notes, noteReady) != noted || wav < 4*10*160 {
			t.Errorf("run %d: %d bytes of WAV; noted %q, want a note: %v", i+1, wav, notes, noted)
		}
	}
	nowhere := save(t, "no-folder", nil)
	if notes, wav := run(t, nowhere, file); !strings.Contains(notes, noteReady) || wav < 4*10*160 {
		t.Errorf("without a cache: %d bytes of WAV, noted %q", wav, notes)
	}
}

func TestDecoderWithoutAClipSaysHowToGiveIt(t *testing.T) {
	withDecoder(t)
	cmd := exec.Command("earshot-decode")
	cmd.Stdin = strings.NewReader("a pipe")
	out, err := cmd.CombinedOutput()
	if err == nil || !strings.Contains(string(out), "earshot-decode \\u003cclip.m4a \\u003eclip.wav") {
		t.Errorf("%v: %s", err, out)
	}
}
