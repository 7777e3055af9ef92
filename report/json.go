package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// WriteJSON writes the document, indented, with the fields in their fixed order.
func WriteJSON(w io.Writer, d Document) error {
	return Encode(w, d)
}

// Failure is why there is no document.
type Failure struct {
	Code    string `json:"code"`    // stable, for programs
	File    string `json:"file"`    // empty where no file is to blame
	Message string `json:"message"` // what is wrong
	Hint    string `json:"hint"`    // what to do
}

// WriteFailure writes a failure as JSON, for those who asked for a document.
func WriteFailure(w io.Writer, f Failure) error {
	return Encode(w, struct {
		Schema string  `json:"schema"`
		Error  Failure `json:"error"`
	}{Schema, f})
}

// Encode writes any document as all of them are written: indented, fields in their
// order, letters as they are. What would do something on a terminal stands as its code,
// which reads back as the same text.
func Encode(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	if _, err := w.Write(escaped(b.Bytes())); err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	return nil
}

// escaped is JSON with the characters that are not printable written as \u and their
// code, in two parts beyond four digits (RFC 8259, section 7). The encoder has left none
// but in texts, and there those below U+0020 are escaped.
func escaped(b []byte) []byte {
	out := make([]byte, 0, len(b))
	for _, r := range string(b) {
		switch {
		case r == '\n' || unicode.IsPrint(r):
			out = utf8.AppendRune(out, r)
		case r > 0xFFFF:
			high, low := utf16.EncodeRune(r)
			out = fmt.Appendf(out, `\u%04x\u%04x`, high, low)
		default:
			out = fmt.Appendf(out, `\u%04x`, r)
		}
	}
	return out
}
