package folder

import (
	"context"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"unicode"

	"earshot/report"
)

// scanned is what lies in a drawer and one folder deep.
type scanned struct {
	list     string   // the name of its list; empty without one
	clips    []string // with / between folders, as a person counts: 2 before 10
	problems Problems
}

// sounds are the endings of names that recorders give to recordings. What a file
// really is shows when it is heard.
const sounds = " .wav .wave .bwf .rf64 .w64 .m4a .m4b .mp4 .mov .3gp .3g2 .caf .aac .amr .mp3 .flac .ogg .oga .opus .webm .mka .aif .aiff .aifc .wma .au "

func soundName(name string) bool {
	ending := strings.ToLower(path.Ext(name))
	return ending != "" && strings.Contains(sounds, " "+ending+" ")
}

// scan finds the clips of a drawer. Hidden files, the report, folders that are links and
// those with a list of their own are passed over; a clip that is a device, a pipe or a link
// that leads out of the drawer is a problem.
func scan(ctx context.Context, root *os.Root) (s scanned, err error) {
	top, err := fs.ReadDir(root.FS(), ".")
	if err != nil {
		return s, err
	}
	for _, e := range top {
		if err := ctx.Err(); err != nil {
			return s, err
		}
		name := e.Name()
		switch {
		case strings.HasPrefix(name, ".") || e.IsDir() && name == ReportFolder:
		case strings.EqualFold(name, listName):
			s.list = name
		case e.IsDir():
			if err := s.folder(root, name); err != nil {
				return s, err
			}
		case soundName(name):
			s.add(root, name)
		}
	}
	slices.SortFunc(s.clips, asCounted)
	return s, nil
}

// folder finds the clips of a folder, unless it is a drawer of its own with a list.
func (s *scanned) folder(root *os.Root, folder string) error {
	inside, err := fs.ReadDir(root.FS(), folder)
	if slices.ContainsFunc(inside, func(e fs.DirEntry) bool { return strings.EqualFold(e.Name(), listName) }) {
		return nil
	}
	for _, e := range inside {
		if !e.IsDir() && soundName(e.Name()) && !strings.HasPrefix(e.Name(), ".") {
			s.add(root, folder+"/"+e.Name())
		}
	}
	return err
}

func (s *scanned) add(root *os.Root, name string) {
	info, err := root.Stat(name)
	switch problem := unfit(info, err); {
	case problem != "":
		s.problems = append(s.problems, report.Failure{Code: "not-a-file", File: name, Message: problem})
	case info.Mode().IsRegular():
		s.clips = append(s.clips, name)
	}
}

// unfit says why something can't be a clip or a folder of clips, empty if it can.
func unfit(info fs.FileInfo, err error) string {
	switch {
	case isMissing(err):
		return "a link that leads nowhere: put the file itself there"
	case err != nil:
		return "it leads out of the drawer, or cannot be read: put the file itself there"
	case !info.Mode().IsRegular() && !info.IsDir():
		return "no file, but a device or pipe: put a recording there"
	}
	return ""
}

// asCounted compares names as a person counts, runs of digits by their value: clip 2
// before clip 10.
func asCounted(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		m, n := digits(x), digits(y)
		if m == "" || n == "" {
			if x[0] != y[0] {
				return int(x[0]) - int(y[0])
			}
			x, y = x[1:], y[1:]
			continue
		}
		x, y = x[len(m):], y[len(n):]
		m, n = strings.TrimLeft(m, "0"), strings.TrimLeft(n, "0")
		if d := len(m) - len(n); d != 0 {
			return d
		}
		if d := strings.Compare(m, n); d != 0 {
			return d
		}
	}
	if d := len(x) - len(y); d != 0 {
		return d
	}
	return strings.Compare(a, b)
}

// digits is the run of digits that s begins with.
func digits(s string) string {
	end := strings.IndexFunc(s, func(r rune) bool { return r > unicode.MaxASCII || !unicode.IsDigit(r) })
	if end < 0 {
		return s
	}
	return s[:end]
}
