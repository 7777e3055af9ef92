package words

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Printable makes text from a file safe for a terminal: a character that is not printable, such
// as an escape or a change of writing direction, is shown as its code.
func Printable(s string) string { return visible(s, unicode.IsPrint) }

// Visible makes a page safe for its reader: a character that is neither printable nor space is
// shown as its code, since a change of writing direction could turn the words around it. It
// does not escape anything for a browser.
func Visible(page string) string {
	return visible(page, func(r rune) bool { return unicode.IsPrint(r) || unicode.IsSpace(r) })
}

// visible shows the characters that are not shown as they are by their codes.
func visible(s string, shown func(rune) bool) string {
	bad := func(r rune) bool { return r == utf8.RuneError || !shown(r) }
	if strings.IndexFunc(s, bad) < 0 {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		r, n := utf8.DecodeRuneInString(s)
		if quoted := strconv.Quote(s[:n]); shown(r) && !(r == utf8.RuneError && n == 1) {
			b.WriteString(s[:n])
		} else {
			b.WriteString(quoted[1 : len(quoted)-1])
		}
		s = s[n:]
	}
	return b.String()
}

// Cell makes text safe in a spreadsheet. Text that begins with one of these characters, or with
// its wide form, is taken for a formula, by some programs behind space too. An apostrophe says
// that it is text. The result is also safe for a terminal, where a CSV may be looked at.
func Cell(s string) string {
	s = Printable(s)
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(s, " ")); strings.ContainsRune("=+-@＝＋－＠", first) {
		return "'" + s
	}
	return s
}

// Number is a figure as a cell of a spreadsheet, with a point and every digit, empty for nil.
func Number(x *float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64)
}
