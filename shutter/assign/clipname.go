package assign

import (
	"strings"
	"unicode"

	"earshot/shutter"
)

// slowestNamed is the longest time a clip's name can carry as seconds. A higher
// number with an s is more likely the length of the recording.
const slowestNamed = 4.0

// MarkFromName reads the speed that a clip's name carries in full, with its s:
// "corvane-105_1-4s.wav" is 1/4, "corvane-105_2s.wav" is 2 s, "_0.5s" is 1/2. The
// hyphen stands for the stroke, which no file name can hold. Bare numbers mean
// nothing, nor does a number run together with another ("105-2s", "f2.8s"); folders
// are not looked at; a name with two different speeds carries none.
func MarkFromName(name string) (shutter.Mark, bool) {
	name = name[strings.LastIndexAny(name, `/\`)+1:]
	found := shutter.Mark{}
	for _, word := range nameWords(name) {
		m, ok := markOfWord(word)
		if !ok {
			continue
		}
		if found.Label != "" && found != m {
			return shutter.Mark{}, false
		}
		found = m
	}
	return found, found.Label != ""
}

// markOfWord reads 1-4s, 2s or 0.5s.
func markOfWord(word string) (shutter.Mark, bool) {
	number, inFull := strings.CutSuffix(word, "s")
	if !inFull || number == "" {
		return shutter.Mark{}, false
	}
	if bottom, ok := strings.CutPrefix(number, "1-"); ok {
		word = "1/" + bottom
	}
	m, err := shutter.ParseMark(word)
	return m, err == nil && m.Nominal <= slowestNamed
}

// nameWords splits a name at whatever is neither letter nor digit. A hyphen or a
// point between two digits joins them.
func nameWords(name string) []string {
	var words []string
	runes, start := []rune(name), 0
	for i, r := range runes {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || joinsDigits(runes, i) {
			continue
		}
		words = append(words, string(runes[start:i]))
		start = i + 1
	}
	return append(words, string(runes[start:]))
}

func joinsDigits(runes []rune, i int) bool {
	joint := runes[i] == '-' || runes[i] == '.'
	return joint && i > 0 && i+1 < len(runes) && unicode.IsDigit(runes[i-1]) && unicode.IsDigit(runes[i+1])
}

// LensFromName is a clip's name without its ending and without the speed that it carries in
// full (see MarkFromName): "corvane-105_1-4s.wav" is of "corvane-105". It is empty if the name
// is a speed only.
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
