package write

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"earshot/report"
)

// JSON writes the document, indented, with the fields in their fixed order.
func JSON(w io.Writer, d report.Document) error {
	return Encode(w, d)
}

// Failure writes a failure as JSON, for those who asked for a document.
func Failure(w io.Writer, f report.Failure) error {
	return Encode(w, struct {
		Schema string         `json:"schema"`
		Error  report.Failure `json:"error"`
	}{report.Schema, f})
}

// ComparisonJSON writes the comparison, indented, with the fields in their fixed order.
func ComparisonJSON(w io.Writer, c report.Comparison) error { return Encode(w, c) }

// ExplanationJSON writes an explanation as a document of its own.
func ExplanationJSON(w io.Writer, x report.Explanation, version string) error {
	return Encode(w, struct {
		Schema      string             `json:"schema"`
		Tool        report.Tool        `json:"tool"`
		Explanation report.Explanation `json:"explanation"`
	}{report.Schema, report.Tool{Version: version}, x})
}

// SoundJSON writes the clip with its findings.
func SoundJSON(w io.Writer, c report.Clip, version string) error {
	return Encode(w, struct {
		Schema string      `json:"schema"`
		Tool   report.Tool `json:"tool"`
		Clip   report.Clip `json:"clip"`
	}{report.Schema, report.Tool{Version: version}, c.Rounded()})
}

// ClockJSON writes the clock's error as a document of its own.
func ClockJSON(w io.Writer, c report.Clock, version string) error {
	c = c.Rounded()
	return Encode(w, struct {
		Schema string       `json:"schema"`
		Tool   report.Tool  `json:"tool"`
		Clock  report.Clock `json:"clock"`
	}{report.Schema, report.Tool{Version: version}, c})
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
