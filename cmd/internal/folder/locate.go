package folder

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"earshot/report"
	"earshot/report/drawer"
	"earshot/shutter"
	"earshot/shutter/assign"
)

// locate finds the clips that a list names, and the clips that it does not name.
func locate(root *os.Root, all scanned, lenses []drawer.Lens) (located []foundLens, unlisted []string, problems []drawer.Problem) {
	owner := map[string]int{} // the line of each clip
	for _, l := range lenses {
		named := l.Clips
		l.Clips = nil
		for _, c := range named {
			clips, problem := locateOne(root, all, c.Name)
			if problem != "" {
				problems = append(problems, drawer.Problem{Line: c.Line, Column: "clip", Message: problem})
			}
			for _, name := range clips {
				if line, taken := owner[name]; taken && line != c.Line {
					problems = append(problems, drawer.Problem{Line: c.Line, Column: "clip", Message: fmt.Sprintf("%s stands in line %d too: a clip is of one lens, and once", name, line)})
					continue
				}
				owner[name] = c.Line
				l.Clips = append(l.Clips, drawer.Clip{Name: name, Line: c.Line})
			}
		}
		located = append(located, foundLens{Lens: withKind(l)})
	}
	unlisted = slices.DeleteFunc(slices.Clone(all.clips), func(name string) bool { return owner[name] > 0 })
	return located, unlisted, problems
}

func withKind(l drawer.Lens) drawer.Lens {
	if l.Shutter == "" {
		l.Shutter = string(shutter.Leaf)
	}
	return l
}

// locateOne finds the clip of a name, or the clips in the folder of that name.
func locateOne(root *os.Root, all scanned, written string) (clips []string, problem string) {
	name := path.Clean(filepath.ToSlash(written))
	if !filepath.IsLocal(filepath.FromSlash(name)) || name == "." {
		return nil, fmt.Sprintf("%q leads out of the drawer: name the clip by its place below the folder", written)
	}
	info, err := root.Stat(filepath.FromSlash(name))
	if isMissing(err) && strings.Contains(name, `\`) { // written where folders are parted so
		return locateOne(root, all, strings.ReplaceAll(written, `\`, "/"))
	}
	if isMissing(err) {
		return nil, fmt.Sprintf("there is no file or folder %q in the drawer%s", written, nearClip(all, name))
	}
	if problem := unfit(info, err); problem != "" {
		return nil, fmt.Sprintf("%q: %s", written, problem)
	}
	if !info.IsDir() {
		return []string{name}, ""
	}
	for _, c := range all.clips {
		if path.Dir(c) == name {
			clips = append(clips, c)
		}
	}
	if len(clips) == 0 {
		return nil, fmt.Sprintf("there is no recording in the folder %q", written)
	}
	return clips, ""
}

// nearClip suggests a clip whose name differs by capitals or its ending alone.
func nearClip(all scanned, name string) string {
	for _, c := range all.clips {
		if strings.EqualFold(c, name) || strings.EqualFold(strings.TrimSuffix(c, path.Ext(c)), strings.TrimSuffix(name, path.Ext(name))) {
			return fmt.Sprintf("; is %q meant?", c)
		}
	}
	return ""
}

// byName makes lenses of the clips of a drawer without a list. Each folder is a lens. So are all
// clips with the same name, apart from the speed in it. Clips whose names are a speed only are
// one lens, with the name of the drawer.
func byName(all scanned, drawerName string) (lenses []foundLens, wrong Problems) {
	wrong = all.problems
	place, bare := map[string]int{}, map[string]string{}
	for _, c := range all.clips {
		name := assign.LensFromName(c)
		if folder := path.Dir(c); folder != "." {
			name = folder
		} else if _, carries := assign.MarkFromName(c); !carries {
			bare[name] = c
		}
		if name == "" {
			name = drawerName
		}
		i, known := place[name]
		if !known {
			i, place[name] = len(lenses), len(lenses)
			lenses = append(lenses, foundLens{Lens: withKind(drawer.Lens{Lens: report.Lens{Name: name}})})
		}
		lenses[i].Clips = append(lenses[i].Clips, drawer.Clip{Name: c})
	}
	for _, l := range lenses {
		if alone := bare[l.Lens.Name]; alone != "" && len(l.Clips) > 1 {
			wrong = append(wrong, report.Failure{Code: "same-name", File: alone, Message: fmt.Sprintf("other clips are of the name %q too: rename it, put the clips of one lens into one folder, or list them in %s", l.Lens.Name, listName)})
		}
	}
	return lenses, wrong
}
