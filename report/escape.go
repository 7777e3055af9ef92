package report

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Printable makes text from a file safe for a terminal: what is not a printable
// character, an escape or a change of writing direction say, is shown as its code.
func Printable(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return r == utf8.RuneError || !unicode.IsPrint(r) }) < 0 {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		r, n := utf8.DecodeRuneInString(s)
		if quoted := strconv.Quote(s[:n]); unicode.IsPrint(r) && !(r == utf8.RuneError && n == 1) {
			b.WriteString(s[:n])
		} else {
			b.WriteString(quoted[1 : len(quoted)-1])
		}
		s = s[n:]
	}
	return b.String()
}

// Cell makes text safe in a spreadsheet, which takes what begins with one of these, or
// its wide form, for a formula, some behind space too; the apostrophe says that it is
// text. Since a CSV is looked at on a terminal too, it is made safe for that as well.
func Cell(s string) string {
	s = Printable(s)
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(s, " ")); strings.ContainsRune("=+-@＝＋－＠", first) {
		return "'" + s
	}
	return s
}
