package report

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
)

// What can be wrong with a record.
var (
	ErrNotRecord   = errors.New("not an earshot record")
	ErrOtherSchema = errors.New("record of another version")
	ErrFailed      = errors.New("record of a failed check")
	ErrDamaged     = errors.New("damaged record")
)

// The largest record that is read, in bytes and in objects. An hour of firings takes less than
// 2 MB and 10,000. The limits are needed since a file may take a hundred times its size in
// memory.
const maxRecord, maxObjects = 6 << 20, 50_000

// Read reads a document and checks that it is consistent: indices in range, verdicts known,
// marks with a time. Unknown fields are ignored. Errors wrap one of the
// sentinels above, or the reader's own.
func Read(r io.Reader) (Document, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxRecord+1))
	if err != nil {
		return Document{}, err
	}
	switch {
	case len(b) > maxRecord:
		return Document{}, fmt.Errorf("%w: larger than %d MB", ErrNotRecord, maxRecord>>20)
	case bytes.Count(b, []byte("{")) > maxObjects:
		return Document{}, fmt.Errorf("%w: more than %d objects in it", ErrNotRecord, maxObjects)
	}
	if err := checkSchema(b); err != nil {
		return Document{}, err
	}
	var d Document
	if err := json.Unmarshal(b, &d); err != nil {
		return Document{}, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	if err := d.check(); err != nil {
		return Document{}, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return d.filled(), nil
}

func checkSchema(b []byte) error {
	var head struct {
		Schema string `json:"schema"`
		Error  *struct {
			Message string `json:"message"`
		} `json:"error"`
	}
	err := json.Unmarshal(b, &head)
	switch {
	case err != nil && !json.Valid(b):
		return fmt.Errorf("%w: not JSON", ErrNotRecord)
	case err != nil || !strings.HasPrefix(head.Schema, "earshot/"):
		return fmt.Errorf("%w: no schema %q in it", ErrNotRecord, Schema)
	case head.Schema != Schema:
		return fmt.Errorf("%w: its schema is %q, this program reads %q", ErrOtherSchema, head.Schema, Schema)
	case head.Error != nil:
		return fmt.Errorf("%w: %s", ErrFailed, head.Error.Message)
	}
	return nil
}

// filled gives empty lists for missing ones, so that what is read can be written.
func (d Document) filled() Document {
	d.Clips = each(d.Clips, Clip.Rounded)
	d.Observed = each(d.Observed, same)
	d.Firings = each(d.Firings, func(f Firing) Firing {
		f.Symptoms, f.Buzz.Falters = each(f.Symptoms, same), each(f.Buzz.Falters, same)
		return f
	})
	d.Symptoms = each(d.Symptoms, filledSymptom)
	d.Speeds = each(d.Speeds, func(s Speed) Speed {
		s.Firings, s.Symptoms = each(s.Firings, same), each(s.Symptoms, filledSymptom)
		return s
	})
	if d.Rest != nil {
		d.Rest.Later = each(d.Rest.Later, same)
	}
	d.Why, d.Warnings = each(d.Why, same), each(d.Warnings, same)
	return d
}

func filledSymptom(s Symptom) Symptom {
	s.Firings = each(s.Firings, same)
	return s
}

// check says what does not hold together.
func (d Document) check() error {
	if d.Made.IsZero() {
		return errors.New("no date in \"made\"")
	}
	if d.Policy.Good <= 0 || d.Policy.Service < d.Policy.Good {
		return fmt.Errorf("limits of %g and %g stops make no policy", d.Policy.Good, d.Policy.Service)
	}
	for i, f := range d.Firings {
		if f.Clip < 0 || f.Clip >= len(d.Clips) {
			return fmt.Errorf("firing %d is of clip %d, and there are %d", i, f.Clip, len(d.Clips))
		}
		if (f.Marked == nil) != (f.Nominal == nil) {
			return fmt.Errorf("firing %d has a marked speed or a nominal time, not both", i)
		}
	}
	if err := d.checkSpeeds(); err != nil {
		return err
	}
	return d.checkIndices()
}

func (d Document) checkSpeeds() error {
	for _, s := range d.Speeds {
		if s.Marked == "" || s.Nominal <= 0 {
			return fmt.Errorf("speed %q has a nominal time of %g s", s.Marked, s.Nominal)
		}
	}
	return nil
}

func (d Document) checkIndices() error {
	lists := append(each(d.Symptoms, func(s Symptom) []int { return s.Firings }), d.Rest.firings())
	for _, s := range d.Speeds {
		lists = append(lists, s.Firings)
		for _, y := range s.Symptoms {
			lists = append(lists, y.Firings)
		}
	}
	for _, list := range lists {
		for _, i := range list {
			if i < 0 || i >= len(d.Firings) {
				return fmt.Errorf("firing %d is spoken of, and there are %d", i, len(d.Firings))
			}
		}
	}
	return nil
}
