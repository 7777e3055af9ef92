package drawer

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// MaxList is how large a list may be, in bytes: some 50,000 lines.
const MaxList = 4 << 20

const saveAsCSV = "save it from the spreadsheet as CSV (UTF-8)"

// decode makes text with plain line ends of a file's bytes; problem is empty if it could.
func decode(file []byte) (text, problem string) {
	switch {
	case len(file) > MaxList:
		return "", "larger than 4 MB: this is no list of lenses"
	case bytes.HasPrefix(file, []byte("PK\x03\x04")) || bytes.HasPrefix(file, []byte("\xd0\xcf\x11\xe0")):
		return "", "this is the spreadsheet's own file, not CSV: " + saveAsCSV
	}
	fallback := transform.Transformer(charmap.Windows1252.NewDecoder())
	if utf8.Valid(file) {
		fallback = transform.Nop
	}
	b, _, err := transform.Bytes(unicode.BOMOverride(fallback), file)
	if err != nil || bytes.IndexByte(b, 0) >= 0 || !utf8.Valid(b) {
		return "", "it holds bytes that are no text: " + saveAsCSV
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(b)), ""
}
