package words

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Printable makes text from a file safe for a terminal: what is not a printable
// character, an escape or a change of writing direction say, is shown as its code.
func Printable(s string) string { return visible(s, unicode.IsPrint) }

// Visible makes a page safe for who reads it: what is neither printable nor space, a
// change of writing direction say, which could turn the words around it, is shown as its
// code. The page is as safe for a browser as it was.
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

// Number is a figure as a cell of a spreadsheet, with a point and every digit; it is
// empty where there is none.
func Number(x *float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64)
}
