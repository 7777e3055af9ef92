package folder

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestStem is how many bytes of a lens's name its files carry.
const longestStem = 80

// nameFiles gives each lens a name for its files that no other has.
func nameFiles(lenses []foundLens) {
	taken := map[string]bool{"index": true, "summary": true}
	for i := range lenses {
		base := stemOf(lenses[i].Title())
		stem := base
		for n := 2; taken[stem]; n++ {
			stem = base + "-" + strconv.Itoa(n)
		}
		taken[stem] = true
		lenses[i].stem = stem
	}
}

// stemOf is a name made fit for files of any system: letters and digits in lower case,
// with single hyphens between; never a name that Windows keeps for devices.
func stemOf(name string) string {
	var b strings.Builder
	for _, word := range strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r == utf8.RuneError || !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}) {
		if b.Len() > 0 {
			b.WriteByte('-')
		}
		b.WriteString(word)
	}
	stem := b.String()
	for len(stem) > longestStem {
		_, last := utf8.DecodeLastRuneInString(stem)
		stem = stem[:len(stem)-last]
	}
	const devices = " con prn aux nul com1 com2 com3 com4 com5 com6 com7 com8 com9 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9 "
	if stem == "" || strings.Contains(devices, " "+stem+" ") {
		stem = "lens-" + stem
	}
	return strings.Trim(stem, "-")
}
