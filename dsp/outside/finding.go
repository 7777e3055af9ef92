package outside

import (
	"encoding/json"
	"testing"
)

// Key is that of the attribute in the log of a test that holds a [Finding] as JSON.
const Key = "outside"

// Finding is what came of one check.
type Finding struct {
	Source  Source
	What    string  `json:",omitempty"` // was compared
	Values  int     `json:",omitempty"` // that were compared
	Digits  float64 `json:",omitempty"` // that agree, of the value that agrees the least
	Held    float64 `json:",omitempty"` // digits that the test asks for
	Printed bool    `json:",omitempty"` // Digits are all that were printed
	Exact   bool    `json:",omitempty"` // every value is the same; Digits are not told
	Alike   int     `json:",omitempty"` // of the values that Held, a share, is asked for
	Apart   string  `json:",omitempty"` // why it is not compared; nothing was
}

func log(t testing.TB, f Finding) {
	t.Helper()
	text, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	t.Attr(Key, string(text))
}
