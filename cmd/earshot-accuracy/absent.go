package main

import (
	"fmt"
	"strings"
)

// absence is a kind of row that this machine can't run, and the Debian packages that are missing
// for it.
type absence struct {
	rows string
	pkgs []string
}

// absences are all of them.
func absences() []absence {
	var all []absence
	if !hasFFmpeg() {
		all = append(all, absence{"the rows through codecs", []string{ffmpegName}})
	}
	for _, k := range recordedKinds() {
		if pkgs := k.missing(); len(pkgs) > 0 {
			all = append(all, absence{"the rows with recorded " + k.name, pkgs})
		}
	}
	return all
}

// aboutAbsent says which rows a page lacks and why; nothing where it lacks none.
func aboutAbsent(all []absence) string {
	var b strings.Builder
	for _, a := range all {
		fmt.Fprintf(&b, "- %s: install %s.\n", a.rows, strings.Join(a.pkgs, ", "))
	}
	if b.Len() == 0 {
		return ""
	}
	return "\nLeft out, for want of Debian packages on the machine of this run:\n\n" + b.String()
}
