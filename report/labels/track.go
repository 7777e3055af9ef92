package labels

import (
	"fmt"

	"earshot/shutter"
)

// Track is the labels of one clip, in time order and apart from each other.
type Track struct {
	Labels []Label
	Step   float64 // the last digit that the times of the file have, s
}

// Label is one firing as it was set. Its Mark is the zero Mark where none was settled.
type Label struct {
	shutter.HandTimed
	Mark shutter.Mark
	Line int // of the file, from 1
}

// Within checks that all labels lie in a clip that lasts so many s. Its error is an
// *Error.
func (t Track) Within(duration float64) error {
	for _, l := range t.Labels {
		if end := max(l.Open, l.Close); end > duration+t.Step/2 {
			return &Error{Line: l.Line, Column: 1, Problem: fmt.Sprintf("the label ends at %g s, beyond the clip's end at %.6g s: is it of another clip?", end, duration)}
		}
	}
	return nil
}

// Times are the firings, for hear.Heard.Correct.
func (t Track) Times() []shutter.HandTimed {
	times := make([]shutter.HandTimed, len(t.Labels))
	for i, l := range t.Labels {
		times[i] = l.HandTimed
	}
	return times
}

// Marks are those of the firings, for assign.Laying.Settle.
func (t Track) Marks() []shutter.Mark {
	marks := make([]shutter.Mark, len(t.Labels))
	for i, l := range t.Labels {
		marks[i] = l.Mark
	}
	return marks
}

// Error says where a file of labels is wrong and what to write.
type Error struct {
	Line, Column int // from 1, the column in characters
	Problem      string
}

func (e *Error) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Problem)
}
