package shutter

import "strings"

// LensFromName is a clip's name without its ending and the speed that it carries in
// full (see MarkFromName): "corvane-105_1-4s.wav" is of "corvane-105". It is empty
// where the speed is all there is.
func LensFromName(name string) string {
	name = name[strings.LastIndexAny(name, `/\`)+1:]
	if dot := strings.LastIndexByte(name, '.'); dot > 0 {
		name = name[:dot]
	}
	if _, ok := MarkFromName(name); !ok {
		return name
	}
	for _, word := range nameWords(name) {
		if _, ok := markOfWord(word); ok {
			before, after, _ := strings.Cut(name, word)
			name = joined(before, after)
		}
	}
	return name
}

// joined puts two parts of a name together with what parted them, once.
func joined(before, after string) string {
	const partings = " _-."
	head, tail := strings.TrimRight(before, partings), strings.TrimLeft(after, partings)
	if head == "" || tail == "" {
		return head + tail
	}
	return before[:min(len(head)+1, len(before))] + tail
}
