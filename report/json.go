package report

import (
	"encoding/json"
	"fmt"
	"io"
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
// order, letters as they are.
func Encode(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing JSON: %w", err)
	}
	return nil
}
