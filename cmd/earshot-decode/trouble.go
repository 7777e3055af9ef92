package main

import "strings"

// trouble is what a line of ffmpeg's log reports of damage; empty where it reports none.
func trouble(line string) string {
	for _, level := range []string{"[error] ", "[fatal] ", "[panic] "} {
		if _, what, found := strings.Cut(line, level); found {
			return plainly(strings.TrimSpace(strings.TrimPrefix(what, "/"+clipName+": ")))
		}
	}
	return ""
}

// firstTrouble is the first of a log, or words for none.
func firstTrouble(log string) string {
	for line := range strings.Lines(log) {
		if what := trouble(line); what != "" {
			return what
		}
	}
	return "the decoder does not say why"
}

// plainly says in plain words what ffmpeg reports most, and quotes the rest.
func plainly(what string) string {
	for part, words := range map[string]string{
		"moov atom not found":             "its table of contents is missing, as where the recording was not stopped or the copy broke off",
		"File ended prematurely":          "it is cut short",
		"Not yet implemented":             "parts of it are coded in a way that is not decoded, as the pauses that AMR leaves out",
		"Invalid data found when process": "parts of it are damaged",
	} {
		if strings.Contains(what, part) {
			return words
		}
	}
	return "parts of it are damaged (" + what + ")"
}
